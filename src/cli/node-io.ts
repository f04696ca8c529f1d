/** The command line's world on Node: files, terminal, server. */
import type { FileHandle } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Io, UserError } from "./io.ts";

/** Columns beyond which long lines are hard to read. */
const widest = 110;

/** Bytes of a record that are read at once. */
const pieceSize = 1 << 20;

/** Beside the built command line: the app in the same folder, the examples one above. */
const built = dirname(fileURLToPath(import.meta.url));
const folders = { app: join(built, "app"), examples: join(built, "..", "examples") };

/** The process's own streams and files. */
export function nodeIo(): Io {
  const { stdout, stderr, stdin, env } = process;
  const onTerminal = stderr.isTTY === true && env["TERM"] !== "dumb";
  return {
    out: (text) => void stdout.write(text),
    err: (text) => void stderr.write(text),
    progress: (text) => void (onTerminal && stderr.write(`\r\u001b[2K${text}`)),
    async read(path) {
      const { readCoilText } = await import("../server/coil-on-disk.ts");
      return forPeople(() => readCoilText(path));
    },
    async save(path, { text, version }) {
      const { saveCoilText } = await import("../server/coil-on-disk.ts");
      const saved = await forPeople(() => saveCoilText({ path, text, baseVersion: version }));
      if (saved.kind === "saved") return;
      throw new UserError(
        version === null
          ? `${path} is there already and was left as it is; choose another name`
          : `${path} was changed by somebody else meanwhile and was left as it is; run it again`,
      );
    },
    async write(path, made) {
      try {
        const { readFile, writeFile } = await import("node:fs/promises");
        const before = await readFile(path, "utf8").catch((error: NodeJS.ErrnoException) => {
          if (error.code === "ENOENT") return undefined;
          throw error;
        });
        if (before !== undefined && before !== "" && !before.startsWith(made.beginning)) {
          throw new UserError(
            `${path} is there already and holds something else; it was left as it is, choose another name`,
          );
        }
        await writeFile(path, made.text, { flag: before === undefined ? "wx" : "w" });
      } catch (error) {
        if (error instanceof Error && "code" in error) throw new UserError(`${path} cannot be written (${error.code})`);
        throw error;
      }
    },
    async folder(path) {
      await makeFolder(path);
    },
    today() {
      const now = new Date();
      const two = (value: number) => String(value).padStart(2, "0");
      return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    },
    async pieces(path) {
      const { open, stat } = await import("node:fs/promises");
      try {
        const found = await stat(path);
        if (found.isDirectory()) throw new UserError(`${path} is a folder; expected a file`);
        return { size: found.size, pieces: piecesOfFile(await open(path), path) };
      } catch (error) {
        if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
        throw unreadable(path, error);
      }
    },
    async interruptible(work) {
      const stop = new AbortController();
      const interrupt = () => stop.abort();
      process.once("SIGINT", interrupt);
      try {
        return await work(stop.signal);
      } finally {
        process.off("SIGINT", interrupt);
      }
    },
    async readStandardInput() {
      if (stdin.isTTY) stderr.write("reading a coil file from standard input; end it with Ctrl+D\n");
      const chunks: Buffer[] = [];
      for await (const chunk of stdin) chunks.push(Buffer.from(chunk));
      return Buffer.concat(chunks).toString("utf8");
    },
    async examples() {
      const { readExamples } = await import("../server/examples.ts");
      const found = await readExamples(folders.examples);
      return new Map(found.map(({ name, text }) => [name.replace(/\.ya?ml$/, ""), text]));
    },
    async serve({ file, port, browser }) {
      const { openBrowser, serveCoil } = await import("../server/index.ts");
      const serving = await forPeople(() =>
        serveCoil({
          file,
          appFolder: folders.app,
          examples: folders.examples,
          ...(port === undefined ? {} : { port }),
        }),
      );
      stdout.write(
        `Coilwright serves ${file} at ${serving.address}\nIt answers on this machine only. Press Ctrl+C to stop.\n`,
      );
      if (browser) await openBrowser(serving.address);
      await new Promise<void>((end) => {
        for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => end());
      });
      await serving.close();
    },
    now: () => new Date().toISOString().replace(/\.\d+/, ""),
    colour: stdout.isTTY === true && !env["NO_COLOR"] && env["TERM"] !== "dumb",
    width: Math.min(widest, Math.max(60, stdout.columns ?? 80)),
  };
}

/**
 * Makes a folder after those that it stands in. Node's own way of doing that never ends where a file system refuses every new folder.
 * @throws UserError  it cannot be made, or something else has its name
 */
async function makeFolder(path: string): Promise<void> {
  const { mkdir, stat } = await import("node:fs/promises");
  const found = await stat(path).catch(() => undefined);
  if (found?.isDirectory()) return;
  if (found)
    throw new UserError(`${path} is there already and is no folder; it was left as it is, choose another name`);
  if (dirname(path) !== path) await makeFolder(dirname(path));
  await mkdir(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== "EEXIST") throw new UserError(`the folder ${path} cannot be made (${error.code})`);
  });
}

/** One buffer for all pieces: a record of hundreds of megabytes would leave as much garbage otherwise. */
async function* piecesOfFile(file: FileHandle, path: string): AsyncGenerator<Uint8Array> {
  try {
    const buffer = new Uint8Array(pieceSize);
    for (;;) {
      const { bytesRead } = await file.read(buffer);
      if (bytesRead === 0) return;
      yield buffer.subarray(0, bytesRead);
    }
  } catch (error) {
    throw unreadable(path, error);
  } finally {
    await file.close();
  }
}

function unreadable(path: string, error: unknown): unknown {
  return error instanceof Error && "code" in error ? new UserError(`${path} cannot be read (${error.code})`) : error;
}

/** Passes on what a server's error says to people; anything else is a fault of the program and stays one. */
async function forPeople<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Error && error.name === "ServeError") throw new UserError(error.message);
    throw error;
  }
}
