/** Server-sent events: one line of news to every page that is open. */
import type { ServerResponse } from "node:http";

/** A silent line now and then keeps a connection open [ms]. */
const breath = 25_000;

export interface News {
  readonly event: "current" | "changed";
  /** Version of the file on the disk; null where there is none. */
  readonly version: string | null;
}

const line = ({ event, version }: News) => `event: ${event}\ndata: ${JSON.stringify({ version })}\n\n`;

export class Listeners {
  readonly #open = new Set<ServerResponse>();
  readonly #breathing = setInterval(() => this.#write(": still here\n\n"), breath).unref();

  /** Keeps the answer open and starts it with what is on the disk now, so that a page that was away can compare. */
  add(response: ServerResponse, version: string | null): void {
    response.writeHead(200, { "content-type": "text/event-stream; charset=utf-8", "cache-control": "no-store" });
    response.write(line({ event: "current", version }));
    this.#open.add(response);
    response.once("close", () => this.#open.delete(response));
  }

  tell(news: News): void {
    this.#write(line(news));
  }

  close(): void {
    clearInterval(this.#breathing);
    for (const response of this.#open) response.end();
    this.#open.clear();
  }

  #write(text: string): void {
    for (const response of this.#open) response.write(text);
  }
}
