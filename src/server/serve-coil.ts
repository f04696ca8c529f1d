/** The loopback server: the built app, and one coil file that it may read and replace. */
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { basename, resolve } from "node:path";
import { answerApp, readAppFiles } from "./app-files.ts";
import { appendToBenchLog, entryIn, readBenchLog } from "./bench-log.ts";
import { readCoilText, saveCoilText } from "./coil-on-disk.ts";
import { ServeError } from "./errors.ts";
import { Listeners } from "./events.ts";
import { readExamples } from "./examples.ts";
import { refuse } from "./gate.ts";
import { answerHeaders } from "./headers.ts";
import { answerError, answerJson, readJson } from "./json.ts";
import { listen } from "./listen.ts";
import { watchFile } from "./watch-file.ts";

export interface ServeRequest {
  /** The coil file. It must be there when serving begins. */
  readonly file: string;
  /** The built app: a folder with `index.html`. */
  readonly appFolder: string;
  /** Folder of example coils that the app may show. */
  readonly examples?: string;
  /** Port on 127.0.0.1. Left out: `usualPort`, or any free one where that is taken. 0: any free one. */
  readonly port?: number;
  /** How often the file is looked at where its folder reports nothing [ms]. */
  readonly lookEvery?: number;
}

export interface Serving {
  /** e.g. `http://127.0.0.1:4127/` */
  readonly address: string;
  readonly port: number;
  /** Ends every connection; the file stays as it is. */
  close(): Promise<void>;
}

/**
 * Serves the app for one coil file on 127.0.0.1, and on no other address.
 *
 *     GET /api/file      { name, text, version }, version the SHA-256 of the bytes on the disk
 *     PUT /api/file      { text, baseVersion } → { version }; 409 { text, version } where the file changed meanwhile
 *                        (both null where it is gone; baseVersion null then makes it again)
 *     GET /api/events    server-sent events: `current` at once, `changed` at each change from outside; data { version }
 *     GET /api/log       { name, text } of the bench's log beside the coil file; an empty text where there is none
 *     POST /api/log      { entry } → { name, text }; 409 where what stands there is no log of ours
 *     GET /api/examples  { examples: [ { name, text } ] }
 *
 * Every refusal and error is { code, message } with a status; `message` is a sentence for a person.
 * @throws ServeError  the file is missing or unreadable, the app is not built, or the port is taken
 */
export async function serveCoil({ file, appFolder, examples, port, lookEvery = 2000 }: ServeRequest): Promise<Serving> {
  const path = resolve(file);
  const atStart = await readCoilText(path);
  if (atStart === undefined) throw fileMissing(path);
  const app = await readAppFiles(resolve(appFolder));

  // Saves and looks take turns, so that none sees the middle of another.
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = turn.then(work, work);
    turn = mine.catch(() => undefined);
    return mine;
  };

  const listeners = new Listeners();
  const watch = watchFile({
    path,
    known: atStart.version,
    every: lookEvery,
    guard: inTurn,
    changed: (version) => listeners.tell({ event: "changed", version }),
  });

  const getFile = async (response: ServerResponse) => {
    const found = await inTurn(() => readCoilText(path));
    if (found === undefined) throw fileMissing(path);
    answerJson(response, 200, { name: basename(path), text: found.text, version: found.version });
  };

  const putFile = async (request: IncomingMessage, response: ServerResponse) => {
    const { text, baseVersion } = replacementIn(await readJson(request));
    const saved = await inTurn(async () => {
      const result = await saveCoilText({ path, text, baseVersion });
      if (result.kind === "saved") watch.know(result.version);
      return result;
    });
    if (saved.kind === "saved") answerJson(response, 200, { version: saved.version });
    else answerJson(response, 409, { text: saved.found?.text ?? null, version: saved.found?.version ?? null });
  };

  const answerApi = async (request: IncomingMessage, response: ServerResponse) => {
    const route = `${request.method} ${pathOf(request)}`;
    switch (route) {
      case "GET /api/file":
        return getFile(response);
      case "PUT /api/file":
        return putFile(request, response);
      case "GET /api/events": {
        const found = await inTurn(() => readCoilText(path).catch(() => undefined));
        return listeners.add(response, found?.version ?? null);
      }
      case "GET /api/log":
        return answerJson(response, 200, await inTurn(() => readBenchLog(path)));
      case "POST /api/log": {
        const entry = entryIn(await readJson(request));
        return answerJson(response, 200, await inTurn(() => appendToBenchLog(path, entry)));
      }
      case "GET /api/examples":
        return answerJson(response, 200, { examples: examples === undefined ? [] : await readExamples(examples) });
      default:
        throw new ServeError({ code: "no-such-request", status: 404, message: `there is no ${route}` });
    }
  };

  const server = createServer((request, response) => {
    for (const [name, value] of Object.entries(answerHeaders)) response.setHeader(name, value);
    const refusal = refuse(request, (server.address() as AddressInfo).port);
    if (refusal !== undefined) answerError(request, response, refusal);
    else if (pathOf(request).startsWith("/api/")) {
      answerApi(request, response).catch((error: unknown) => answerError(request, response, error));
    } else answerApp(request, response, app.get(pathOf(request)));
  });

  const listening = await listen(server, port).catch((error: unknown) => {
    watch.close();
    listeners.close();
    throw error;
  });
  return {
    address: `http://127.0.0.1:${listening}/`,
    port: listening,
    close: () =>
      new Promise((closed) => {
        watch.close();
        listeners.close();
        server.close(() => closed());
        server.closeAllConnections();
      }),
  };
}

const pathOf = (request: IncomingMessage) => request.url?.split("?")[0] ?? "/";

const fileMissing = (path: string) =>
  new ServeError({
    code: "file-missing",
    status: 404,
    message: `${path} is not there; it was moved, renamed or deleted`,
  });

/** @throws ServeError  the body of a PUT is not { text, baseVersion } */
function replacementIn(body: unknown): { text: string; baseVersion: string | null } {
  if (typeof body === "object" && body !== null && "text" in body && "baseVersion" in body) {
    const { text, baseVersion } = body;
    if (typeof text === "string" && (typeof baseVersion === "string" || baseVersion === null))
      return { text, baseVersion };
  }
  throw new ServeError({
    code: "wrong-body",
    status: 400,
    message: "{ text, baseVersion } was expected: the new text, and the version it was made from",
  });
}
