/** A world in memory for the command line: files, what was printed, what was saved. */
import { type Io, UserError } from "../../src/cli/io.ts";

export interface MemoryIo extends Io {
  readonly files: Map<string, string>;
  readonly printed: { out: string; err: string };
  readonly served: unknown[];
}

export function memoryIo(
  files: Readonly<Record<string, string>> = {},
  { standardInput = "", colour = false }: { standardInput?: string; colour?: boolean } = {},
): MemoryIo {
  const stored = new Map(Object.entries(files));
  const printed = { out: "", err: "" };
  const served: unknown[] = [];
  return {
    files: stored,
    printed,
    served,
    colour,
    width: 80,
    out: (text) => {
      printed.out += text;
    },
    err: (text) => {
      printed.err += text;
    },
    progress: () => undefined,
    async read(path) {
      const text = stored.get(path);
      return text === undefined ? undefined : { text, version: text };
    },
    async save(path, { text, version }) {
      if ((stored.get(path) ?? null) !== version) throw new UserError(`${path} was left as it is`);
      stored.set(path, text);
    },
    readStandardInput: async () => standardInput,
    examples: async () => new Map([["lantern", "coilwright: 1\nname: Lantern\n"]]),
    async serve(request) {
      served.push(request);
    },
  };
}
