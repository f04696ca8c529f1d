/**
 * The built app, read into memory when serving begins: a few hundred kilobytes. No path of a request ever reaches the disk,
 * and a build that replaces the folder meanwhile does not mix two versions in one page.
 */
import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import type { IncomingMessage, ServerResponse } from "node:http";
import { extname, join, relative, sep } from "node:path";
import { ServeError } from "./errors.ts";
import { answerError } from "./json.ts";

export interface AppFile {
  readonly bytes: Buffer;
  readonly type: string;
  readonly tag: string;
}

/** By path of the request, e.g. `/assets/index.js`; `/` is the page. */
export type AppFiles = ReadonlyMap<string, AppFile>;

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".md": "text/plain; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
};

/** @throws ServeError  the folder is not there or holds no page */
export async function readAppFiles(folder: string): Promise<AppFiles> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = new Map<string, AppFile>();
  for (const entry of entries.filter((one) => one.isFile())) {
    const path = join(entry.parentPath, entry.name);
    const bytes = await readFile(path);
    files.set(`/${relative(folder, path).split(sep).join("/")}`, {
      bytes,
      type: types[extname(entry.name)] ?? "application/octet-stream",
      tag: `"${createHash("sha256").update(bytes).digest("hex").slice(0, 32)}"`,
    });
  }
  const page = files.get("/index.html");
  if (page === undefined) {
    throw new ServeError({
      code: "app-not-built",
      status: 500,
      message: `there is no built app in ${folder}; run npm start, which builds it`,
    });
  }
  return files.set("/", page);
}

/** Answers with a file of the app, or says that it has none of that name. */
export function answerApp(request: IncomingMessage, response: ServerResponse, file: AppFile | undefined): void {
  if (request.method !== "GET" && request.method !== "HEAD") {
    answerError(request, response, new ServeError(appIsReadOnly));
    return;
  }
  if (file === undefined) {
    answerError(request, response, new ServeError(noSuchFile));
    return;
  }
  const unchanged = request.headers["if-none-match"] === file.tag;
  response.writeHead(unchanged ? 304 : 200, {
    "content-type": file.type,
    "cache-control": "no-cache",
    etag: file.tag,
    ...(unchanged ? {} : { "content-length": file.bytes.length }),
  });
  response.end(unchanged || request.method === "HEAD" ? undefined : file.bytes);
}
const appIsReadOnly = { code: "no-such-request", status: 405, message: "the app can only be read" };
const noSuchFile = { code: "no-such-file", status: 404, message: "there is no such file in the app" };
