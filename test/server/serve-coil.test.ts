/** The loopback server as a client on the wire meets it. */
import { createHash } from "node:crypto";
import { chmod, mkdir, readFile, rename, rm, symlink, writeFile } from "node:fs/promises";
import { type IncomingHttpHeaders, request } from "node:http";
import { connect } from "node:net";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { type ServeRequest, serveCoil } from "../../src/server/index.ts";
import { coilText, makeBench } from "./temporary.ts";

const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");
const otherText = "coilwright: 1\nname: Other\n";

/** A server for a fresh coil file. */
async function serve(options: Partial<ServeRequest> = {}) {
  const bench = await makeBench();
  const serving = await serveCoil({ ...bench, port: 0, lookEvery: 50, ...options });
  onTestFinished(() => serving.close());
  return { ...bench, ...serving };
}

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** A request exactly as written: no path is tidied and no header added, as `fetch` would do. */
function ask(
  port: number,
  path: string,
  { method = "GET", headers = {}, body }: { method?: string; headers?: Record<string, string>; body?: string } = {},
): Promise<Answer> {
  return new Promise((answered, failed) => {
    const asking = request({ host: "127.0.0.1", port, path, method, headers, agent: false }, (response) => {
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (piece: string) => {
        text += piece;
      });
      response.on("end", () => answered({ status: response.statusCode ?? 0, headers: response.headers, body: text }));
    });
    asking.on("error", failed);
    asking.end(body);
  });
}

const put = (port: number, body: unknown, headers: Record<string, string> = {}) =>
  ask(port, "/api/file", {
    method: "PUT",
    headers: { "content-type": "application/json", ...headers },
    body: JSON.stringify(body),
  });

/** The news that a page would hear, in order, until it has heard enough. */
async function listen(port: number) {
  const controller = new AbortController();
  onTestFinished(() => controller.abort());
  const response = await fetch(`http://127.0.0.1:${port}/api/events`, { signal: controller.signal });
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
  let text = "";
  return {
    type: response.headers.get("content-type"),
    async next(): Promise<{ event: string; version: string | null }> {
      for (;;) {
        const found = /^event: (\w+)\ndata: (.*)\n\n/.exec(text);
        if (found !== null) {
          text = text.slice(found[0].length);
          return { event: found[1]!, ...JSON.parse(found[2]!) };
        }
        const { value, done } = await reader.read();
        if (done) throw new Error("the server stopped speaking");
        text += value;
      }
    },
  };
}

describe("the app", () => {
  it("is given out with headers that let nothing in from elsewhere", async () => {
    const { port } = await serve();
    const { status, headers, body } = await ask(port, "/");
    expect(status).toBe(200);
    expect(body).toContain("<title>Coilwright</title>");
    expect(headers).toMatchObject({
      "content-type": "text/html; charset=utf-8",
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
    });
    expect(headers["content-security-policy"]).toMatch(/^default-src 'self';/);
    expect(headers["content-security-policy"]).not.toMatch(/unsafe|https?:|\*/);
    expect((await ask(port, "/assets/main.js")).headers["content-type"]).toBe("text/javascript; charset=utf-8");
  });

  it("is not sent twice to a browser that has it", async () => {
    const { port } = await serve();
    const { headers } = await ask(port, "/");
    const again = await ask(port, "/", { headers: { "if-none-match": headers.etag! } });
    expect(again).toMatchObject({ status: 304, body: "" });
  });

  it.each([
    "/../secret.txt",
    "/assets/../../secret.txt",
    "/..%2fsecret.txt",
    "/%2e%2e/secret.txt",
    "/..\\secret.txt",
    "//etc/passwd",
    "/assets/%00",
    "/%",
    "/../work/lantern.yaml",
    "/link/secret.txt",
    "/link.txt",
    "/assets",
    "/nothing.js",
  ])("does not lead out of its folder: %s", async (path) => {
    const bench = await makeBench();
    await symlink(bench.folder, join(bench.appFolder, "link"));
    await symlink(join(bench.folder, "secret.txt"), join(bench.appFolder, "link.txt"));
    const { port, close } = await serveCoil({ ...bench, port: 0 });
    onTestFinished(close);
    expect(await ask(port, path)).toMatchObject({ status: 404, body: expect.stringContaining("no-such-file") });
  });

  it("cannot be written to", async () => {
    const { port } = await serve();
    for (const method of ["PUT", "POST", "DELETE", "OPTIONS"]) {
      expect((await ask(port, "/index.html", { method })).status).toBe(405);
    }
  });
});

describe("who may ask", () => {
  it.each([
    ["another name", { host: "coil.example" }],
    ["another name on the right port", (port: number) => ({ host: `coil.example:${port}` })],
    ["our name with something behind it", (port: number) => ({ host: `127.0.0.1.coil.example:${port}` })],
    ["our name on another port", { host: "127.0.0.1:1" }],
    ["our name without a port", { host: "localhost" }],
  ])("a request under %s is refused", async (_what, headers) => {
    const { port } = await serve();
    const refused = await ask(port, "/", { headers: typeof headers === "function" ? headers(port) : headers });
    expect(refused).toMatchObject({ status: 403, body: expect.stringContaining("foreign-host") });
  });

  it("a request without a name is refused", async () => {
    const { port } = await serve();
    const answer = await new Promise<string>((answered) => {
      const socket = connect(port, "127.0.0.1", () => socket.end("GET /api/file HTTP/1.0\r\n\r\n"));
      let text = "";
      socket.on("data", (piece) => {
        text += piece;
      });
      socket.on("close", () => answered(text));
    });
    expect(answer).toMatch(/^HTTP\/1\.1 403 /);
    expect(answer).not.toContain("Lantern");
  });

  it.each([
    ["https://coil.example", "foreign-origin"],
    ["null", "foreign-origin"],
    ["http://127.0.0.1:1", "foreign-origin"],
    ["http://localhost.coil.example", "foreign-origin"],
  ])("a page from %s may neither read nor write", async (origin, code) => {
    const { port, file } = await serve();
    expect(await ask(port, "/api/file", { headers: { origin } })).toMatchObject({
      status: 403,
      body: expect.stringContaining(code),
    });
    expect((await put(port, { text: otherText, baseVersion: sha256(coilText) }, { origin })).status).toBe(403);
    expect(await readFile(file, "utf8")).toBe(coilText);
  });

  it("a cross-site fetch that hides its origin may not read", async () => {
    const { port } = await serve();
    for (const site of ["cross-site", "same-site"]) {
      expect((await ask(port, "/api/file", { headers: { "sec-fetch-site": site } })).status).toBe(403);
    }
    expect((await ask(port, "/api/file", { headers: { "sec-fetch-site": "same-origin" } })).status).toBe(200);
  });

  it("our own page may, under either of our names", async () => {
    const { port } = await serve();
    for (const name of ["127.0.0.1", "localhost", "LOCALHOST"]) {
      const headers = { host: `${name}:${port}`, origin: `http://${name}:${port}` };
      expect((await ask(port, "/api/file", { headers })).status).toBe(200);
    }
  });

  it("listens on 127.0.0.1 and on no other address of this machine", async () => {
    const { port } = await serve();
    const reached = await new Promise<boolean>((answered) => {
      const socket = connect(port, "127.0.0.2", () => answered(true));
      socket.on("error", () => answered(false));
    });
    expect(reached).toBe(false);
  });
});

describe("the file", () => {
  it("is read with its name and version", async () => {
    const { port } = await serve();
    const { headers, body } = await ask(port, "/api/file");
    expect(headers["cache-control"]).toBe("no-store");
    expect(JSON.parse(body)).toEqual({ name: "lantern.yaml", text: coilText, version: sha256(coilText) });
  });

  it("is replaced when the base version is what stands on the disk", async () => {
    const { port, file } = await serve();
    const first = await put(port, { text: otherText, baseVersion: sha256(coilText) });
    expect(first).toMatchObject({ status: 200, body: JSON.stringify({ version: sha256(otherText) }) });
    expect(await readFile(file, "utf8")).toBe(otherText);
    expect((await put(port, { text: coilText, baseVersion: sha256(otherText) })).status).toBe(200);
  });

  it("is not replaced when it changed meanwhile; the answer holds what is there", async () => {
    const { port, file } = await serve();
    await writeFile(file, otherText);
    const { status, body } = await put(port, { text: "name: mine\n", baseVersion: sha256(coilText) });
    expect(status).toBe(409);
    expect(JSON.parse(body)).toEqual({ text: otherText, version: sha256(otherText) });
    expect(await readFile(file, "utf8")).toBe(otherText);
  });

  it("takes one of two saves that start from the same version", async () => {
    const { port, file } = await serve();
    const texts = ["name: one\n", "name: two\n"];
    const answers = await Promise.all(texts.map((text) => put(port, { text, baseVersion: sha256(coilText) })));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
    const winner = texts[answers.findIndex(({ status }) => status === 200)];
    expect(await readFile(file, "utf8")).toBe(winner);
  });

  it("that is gone is said to be gone, and comes back only when asked for", async () => {
    const { port, file } = await serve();
    await rm(file);
    expect(await ask(port, "/api/file")).toMatchObject({ status: 404, body: expect.stringContaining("file-missing") });
    const refused = await put(port, { text: otherText, baseVersion: sha256(coilText) });
    expect(refused).toMatchObject({ status: 409, body: JSON.stringify({ text: null, version: null }) });
    expect((await put(port, { text: otherText, baseVersion: null })).status).toBe(200);
    expect(await readFile(file, "utf8")).toBe(otherText);
  });

  it("stays as it was after a save that fails, and the answer says why", async () => {
    const { port, file } = await serve();
    await chmod(file, 0o444);
    const { status, body } = await put(port, { text: otherText, baseVersion: sha256(coilText) });
    expect(status).toBe(403);
    expect(JSON.parse(body)).toMatchObject({ code: "file-write-protected", message: expect.stringContaining("copy") });
    expect(await readFile(file, "utf8")).toBe(coilText);
  });

  it.each([
    ["a form", { "content-type": "application/x-www-form-urlencoded" }, "text=x", 415],
    ["plain text", { "content-type": "text/plain" }, '{"text":"x","baseVersion":null}', 415],
    ["no type at all", {}, '{"text":"x","baseVersion":null}', 415],
    ["something that is not JSON", { "content-type": "application/json" }, "{text}", 400],
    ["JSON of another form", { "content-type": "application/json" }, '{"text":1,"baseVersion":null}', 400],
    ["JSON without a base version", { "content-type": "application/json" }, '{"text":"x"}', 400],
    ["too much", { "content-type": "application/json" }, `"${"x".repeat(7 * 1024 * 1024)}"`, 413],
  ] as const)("is not replaced by %s", async (_what, headers, body, status) => {
    const { port, file } = await serve();
    // A refusal may come before the whole body is sent; then the connection may end under the sender.
    const answer = await ask(port, "/api/file", { method: "PUT", headers, body }).catch((error: unknown) =>
      String(error),
    );
    if (typeof answer === "string") expect(status === 413 && answer).toMatch(/EPIPE|ECONNRESET/);
    else expect(answer.status).toBe(status);
    expect(await readFile(file, "utf8")).toBe(coilText);
  });

  it("has no other requests", async () => {
    const { port } = await serve();
    for (const [method, path] of [
      ["DELETE", "/api/file"],
      ["POST", "/api/file"],
      ["GET", "/api/"],
      ["GET", "/api/file/"],
    ]) {
      expect((await ask(port, path!, { method: method! })).status).toBe(404);
    }
  });
});

describe("news", () => {
  it("begins with the version on the disk and follows every change from outside", async () => {
    const { port, file } = await serve();
    const news = await listen(port);
    expect(news.type).toBe("text/event-stream; charset=utf-8");
    expect(await news.next()).toEqual({ event: "current", version: sha256(coilText) });
    await writeFile(file, otherText);
    expect(await news.next()).toEqual({ event: "changed", version: sha256(otherText) });
    // Many editors write a new file and rename it over the old one.
    await writeFile(`${file}~`, coilText);
    await rename(`${file}~`, file);
    expect(await news.next()).toEqual({ event: "changed", version: sha256(coilText) });
    await rm(file);
    expect(await news.next()).toEqual({ event: "changed", version: null });
    await writeFile(file, otherText);
    expect(await news.next()).toEqual({ event: "changed", version: sha256(otherText) });
  });

  it("of our own save is no news", async () => {
    const { port, file } = await serve();
    const news = await listen(port);
    await news.next();
    expect((await put(port, { text: otherText, baseVersion: sha256(coilText) })).status).toBe(200);
    await new Promise((later) => setTimeout(later, 300));
    await writeFile(file, "name: third\n");
    expect(await news.next()).toEqual({ event: "changed", version: sha256("name: third\n") });
  });

  it("comes through the regular look where the folder was replaced and its reports stopped", async () => {
    const { port, file, folder } = await serve();
    const news = await listen(port);
    await news.next();
    await rename(join(folder, "work"), join(folder, "elsewhere"));
    expect(await news.next()).toEqual({ event: "changed", version: null });
    await mkdir(join(folder, "work"));
    await writeFile(file, otherText);
    expect(await news.next()).toEqual({ event: "changed", version: sha256(otherText) });
  });

  it("comes promptly through the folder's own reports", async () => {
    const { port, file } = await serve({ lookEvery: 3_600_000 });
    const news = await listen(port);
    await news.next();
    await writeFile(file, otherText);
    expect(await news.next()).toEqual({ event: "changed", version: sha256(otherText) });
  });

  it("reaches a link whose target changes in another folder", async () => {
    const bench = await makeBench();
    const link = join(bench.folder, "link.yaml");
    await symlink(bench.file, link);
    const { port, close } = await serveCoil({ ...bench, file: link, port: 0, lookEvery: 3_600_000 });
    onTestFinished(close);
    const news = await listen(port);
    await news.next();
    await writeFile(bench.file, otherText);
    expect(await news.next()).toEqual({ event: "changed", version: sha256(otherText) });
  });
});

describe("examples", () => {
  it("are the coil files of their folder, in order of name", async () => {
    const { port } = await serve();
    const { examples } = JSON.parse((await ask(port, "/api/examples")).body);
    expect(examples).toEqual([
      { name: "a.yaml", text: "coilwright: 1\nname: A\n" },
      { name: "b.yaml", text: "coilwright: 1\nname: B\n" },
    ]);
  });

  it("are none where there is no such folder", async () => {
    const { port } = await serve({ examples: "/nowhere/at/all" });
    expect((await ask(port, "/api/examples")).body).toBe('{"examples":[]}');
  });
});

describe("starting and stopping", () => {
  it.each([
    ["a file that is not there", { file: "/nowhere/coil.yaml" }, "file-missing"],
    ["an app that is not built", { appFolder: "/nowhere/app" }, "app-not-built"],
  ])("refuses %s", async (_what, options, code) => {
    const bench = await makeBench();
    await expect(serveCoil({ ...bench, port: 0, ...options })).rejects.toMatchObject({ name: "ServeError", code });
  });

  it("says so when the port that was asked for is taken, and looks for another when none was", async () => {
    const { port, ...bench } = await serve();
    await expect(serveCoil({ ...bench, port })).rejects.toMatchObject({ code: "port-taken" });
    const { port: _, ...first } = await serve({ port: 0 });
    const one = await serveCoil(first);
    const two = await serveCoil(first);
    expect(one.port).not.toBe(two.port);
    await Promise.all([one.close(), two.close()]);
  });

  it("ends open connections and frees the port", async () => {
    const { port, close } = await serve();
    const news = await listen(port);
    await news.next();
    await close();
    await expect(news.next()).rejects.toThrow();
    await expect(ask(port, "/")).rejects.toThrow("ECONNREFUSED");
  });
});
