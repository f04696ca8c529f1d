/** A world in memory for the command line: files, what was printed, what was saved. */
import { type Io, UserError } from "../../src/cli/io.ts";

export interface MemoryIo extends Io {
  readonly files: Map<string, string>;
  readonly printed: { out: string; err: string };
  /** Every message of progress. */
  readonly progressed: string[];
  readonly served: unknown[];
}

export function memoryIo(
  files: Readonly<Record<string, string>> = {},
  {
    standardInput = "",
    colour = false,
    interrupted = false,
  }: {
    standardInput?: string;
    colour?: boolean;
    /** From the beginning, or once a message of progress matches. */
    interrupted?: boolean | RegExp;
  } = {},
): MemoryIo {
  const stored = new Map(Object.entries(files));
  const printed = { out: "", err: "" };
  const progressed: string[] = [];
  const stop = new AbortController();
  const served: unknown[] = [];
  return {
    files: stored,
    printed,
    progressed,
    served,
    colour,
    now: () => "2026-11-25T16:20:00Z",
    width: 80,
    out: (text) => {
      printed.out += text;
    },
    err: (text) => {
      printed.err += text;
    },
    progress: (text) => {
      progressed.push(text);
      if (interrupted instanceof RegExp && interrupted.test(text)) stop.abort();
    },
    async read(path) {
      const text = stored.get(path);
      return text === undefined ? undefined : { text, version: text };
    },
    async save(path, { text, version }) {
      if ((stored.get(path) ?? null) !== version) throw new UserError(`${path} was left as it is`);
      stored.set(path, text);
    },
    async write(path, { text, beginning }) {
      const before = stored.get(path);
      if (before && !before.startsWith(beginning)) throw new UserError(`${path} holds something else`);
      stored.set(path, typeof text === "string" ? text : Buffer.from(text).toString("latin1"));
    },
    folder: async () => undefined,
    today: () => "2026-01-31",
    async pieces(path) {
      const text = stored.get(path);
      if (text === undefined) return undefined;
      const bytes = new TextEncoder().encode(text);
      const half = bytes.length >> 1;
      return {
        size: bytes.length,
        pieces: (async function* () {
          yield bytes.subarray(0, half);
          yield bytes.subarray(half);
        })(),
      };
    },
    interruptible: (work) => work(interrupted === true ? AbortSignal.abort() : stop.signal),
    readStandardInput: async () => standardInput,
    examples: async () => new Map([["lantern", "coilwright: 1\nname: Lantern\n"]]),
    async serve(request) {
      served.push(request);
    },
  };
}
