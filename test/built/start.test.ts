/** `npm start` as somebody meets it after the packages are there: an address, the demo coil as a file of their own, a clean end. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { demoCoil } from "../../scripts/demo-coil.js";
import { root } from "../../scripts/step.js";

async function workingFolder() {
  const folder = await mkdtemp(join(tmpdir(), "working-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  return folder;
}

/** Starts in a working folder; gives the printed address, or what was said where it ended by itself. */
async function start(folder: string, ...parameters: string[]) {
  const child: ChildProcess = spawn(process.execPath, [join(root, "scripts/start.js"), ...parameters], {
    // A continuous-integration run opens no window.
    env: { ...process.env, INIT_CWD: folder, CI: "true" },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const ended = new Promise<number | null>((done) => child.once("close", done));
  onTestFinished(async () => {
    child.kill("SIGKILL");
    await ended;
  });
  let said = "";
  const address = await new Promise<string | undefined>((found) => {
    const hear = (piece: Buffer) => {
      said += piece;
      const match = /(http:\/\/127\.0\.0\.1:\d+\/)/.exec(said);
      if (match !== null) found(match[1]);
    };
    child.stdout?.on("data", hear);
    child.stderr?.on("data", hear);
    void ended.then(() => found(undefined));
  });
  const stop = (signal: NodeJS.Signals) => {
    child.kill(signal);
    return ended;
  };
  return { address, ended, stop, said: () => said };
}

describe("npm start", () => {
  it("serves a copy of the demo coil, says so, and ends when told to", async () => {
    const demo = await readFile(demoCoil, "utf8");
    const folder = await workingFolder();
    const { address, stop, said } = await start(folder);
    expect(said()).toContain(join(folder, "my-coil.yaml"));
    expect(await (await fetch(`${address}`)).text()).toMatch(/<title>[^<]*Coilwright/);
    const served = await (await fetch(`${address}api/file`)).json();
    expect(served).toMatchObject({ name: "my-coil.yaml", text: demo });
    expect(await stop("SIGINT")).toBe(0);
  });

  it("opens the working file as it was left, and never writes over it", async () => {
    const folder = await workingFolder();
    await writeFile(join(folder, "my-coil.yaml"), "coilwright: 1\nname: Mine\n");
    const { address, stop } = await start(folder);
    expect(await (await fetch(`${address}api/file`)).json()).toMatchObject({ text: "coilwright: 1\nname: Mine\n" });
    expect(await stop("SIGTERM")).toBe(0);
  });

  it("opens a file that is named", async () => {
    const folder = await workingFolder();
    await writeFile(join(folder, "other.yaml"), "coilwright: 1\nname: Other\n");
    const { address } = await start(folder, "other.yaml");
    expect(await (await fetch(`${address}api/file`)).json()).toMatchObject({ name: "other.yaml" });
  });

  it("says which file it cannot find, and ends with a code", async () => {
    const folder = await workingFolder();
    const { address, ended, said } = await start(folder, "gone.yaml");
    expect(address).toBeUndefined();
    expect(await ended).toBe(2);
    expect(said()).toContain(`${join(folder, "gone.yaml")} is not there`);
    expect(said()).not.toMatch(/^\s+at /m);
  });
});
