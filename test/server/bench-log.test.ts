/** The log of the bench through the loopback server. */
import { readdir, readFile, writeFile } from "node:fs/promises";
import { basename, dirname } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { logNameOf } from "../../src/readers/bench-log.ts";
import { serveCoil } from "../../src/server/index.ts";
import { coilText, makeBench } from "./temporary.ts";

const entry = { kind: "adopted", at: "2026-11-25T16:20:00Z", edits: [{ path: "primary.tap", value: "6.5" }] };

async function serve() {
  const bench = await makeBench();
  const serving = await serveCoil({ ...bench, port: 0, lookEvery: 50 });
  onTestFinished(() => serving.close());
  const address = `${serving.address}api/log`;
  const post = (body: unknown, headers: Record<string, string> = {}) =>
    fetch(address, {
      method: "POST",
      headers: { "content-type": "application/json", ...headers },
      body: JSON.stringify(body),
    });
  return { ...bench, log: logNameOf(bench.file), address, post };
}

describe("the log", () => {
  it("is empty at first, grows by entries, and leaves the coil file alone", async () => {
    const { file, log, address, post } = await serve();
    expect(await (await fetch(address)).json()).toEqual({ name: basename(log), text: "" });
    expect((await post({ entry })).status).toBe(200);
    const second = (await (await post({ entry })).json()) as { text: string };
    expect(second.text).toBe(await readFile(log, "utf8"));
    expect(second.text.trim().split("\n")).toHaveLength(3);
    expect(await readFile(file, "utf8")).toBe(coilText);
    // law: a file replaced whole leaves nothing half-written beside it
    expect((await readdir(dirname(file))).filter((name) => name.endsWith(".tmp"))).toEqual([]);
  });

  it("gets every one of many entries that come at once", async () => {
    const { post, log } = await serve();
    const all = await Promise.all(Array.from({ length: 12 }, () => post({ entry })));
    expect(all.map(({ status }) => status)).toEqual(Array(12).fill(200));
    expect((await readFile(log, "utf8")).trim().split("\n")).toHaveLength(13);
  });

  it("leaves a file that is not ours as it is", async () => {
    const { log, post } = await serve();
    await writeFile(log, "my own notes\n");
    const refused = await post({ entry });
    expect(refused.status).toBe(409);
    expect(await refused.json()).toMatchObject({ code: "not-a-log" });
    expect(await readFile(log, "utf8")).toBe("my own notes\n");
  });

  it("takes nothing from another page, and no body that is no entry", async () => {
    const { log, post } = await serve();
    expect((await post({ entry }, { origin: "http://elsewhere.example" })).status).toBe(403);
    for (const body of [{}, { entry: "x" }, { entry: { ...entry, at: 5 } }, [entry]])
      expect((await post(body)).status).toBe(400);
    const long = { ...entry, edits: [{ path: "name", value: "x".repeat(70_000) }] };
    expect((await post({ entry: long })).status).toBe(413);
    await expect(readFile(log, "utf8")).rejects.toThrow();
  });
});
