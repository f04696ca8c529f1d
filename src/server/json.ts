/** JSON in and out of a request. */
import type { IncomingMessage, ServerResponse } from "node:http";
import { largestFile } from "./disk-errors.ts";
import { ServeError } from "./errors.ts";

/** A JSON string may spend six characters on one of the text's. */
const largestBody = 6 * largestFile + 1024;

export function answerJson(response: ServerResponse, status: number, body: unknown): void {
  const bytes = Buffer.from(JSON.stringify(body), "utf8");
  response.writeHead(status, {
    "content-type": "application/json; charset=utf-8",
    "content-length": bytes.length,
    "cache-control": "no-store",
  });
  response.end(bytes);
}

/** Answers with what went wrong. A body that nobody read is not waited for: the connection closes. */
export function answerError(request: IncomingMessage, response: ServerResponse, error: unknown): void {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  if (!request.complete) response.setHeader("connection", "close");
  if (error instanceof ServeError) {
    answerJson(response, error.status, { code: error.code, message: error.message });
    return;
  }
  const message = error instanceof Error ? error.message : String(error);
  answerJson(response, 500, { code: "failed", message: `the server could not do this: ${message}` });
}

/** @throws ServeError the body is not announced as JSON, is too large, or is not JSON */
export async function readJson(request: IncomingMessage): Promise<unknown> {
  const type = request.headers["content-type"]?.split(";")[0]?.trim().toLowerCase();
  if (type !== "application/json") {
    throw new ServeError({ code: "not-json", status: 415, message: "the body must be application/json" });
  }
  const pieces: Buffer[] = [];
  let length = 0;
  for await (const piece of request as AsyncIterable<Buffer>) {
    length += piece.length;
    if (length > largestBody) {
      throw new ServeError({
        code: "body-too-large",
        status: 413,
        message: `more than ${largestBody} bytes were sent`,
      });
    }
    pieces.push(piece);
  }
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(pieces)));
  } catch {
    throw new ServeError({ code: "not-json", status: 400, message: "the body is not JSON in UTF-8" });
  }
}
