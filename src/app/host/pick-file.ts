/** Opening and saving with what the browser has: file handles where present, else an input and a download. */
import type { HostedFile } from "./host.ts";

interface Writable {
  write(text: string): Promise<void>;
  close(): Promise<void>;
}
/** The part of a file handle that is used here. */
export interface FileHandle {
  readonly name: string;
  getFile(): Promise<File>;
  createWritable(): Promise<Writable>;
}
interface Pickers {
  showOpenFilePicker?(options: object): Promise<FileHandle[]>;
  showSaveFilePicker?(options: object): Promise<FileHandle>;
}

const types = [{ description: "coil file", accept: { "application/yaml": [".yaml", ".yml"] } }];
const pickers = () => window as unknown as Pickers;

const unlessCancelled = async <T>(asked: Promise<T>): Promise<T | undefined> => {
  try {
    return await asked;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return undefined;
    throw error;
  }
};

export interface PickedFile extends HostedFile {
  readonly handle?: FileHandle;
}

/** Version of a file that is held by a handle: when it was last written, and its length. */
export const versionOf = (file: File) => `${file.lastModified}-${file.size}`;

async function pickByInput(): Promise<PickedFile | undefined> {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".yaml,.yml,.json,text/plain";
  const file = await new Promise<File | undefined>((done) => {
    input.addEventListener("change", () => done(input.files?.[0]));
    input.addEventListener("cancel", () => done(undefined));
    input.click();
  });
  return file === undefined ? undefined : { name: file.name, text: await file.text() };
}

/** Asks for a file to open. */
export async function pickToOpen(): Promise<PickedFile | undefined> {
  const show = pickers().showOpenFilePicker;
  if (show === undefined) return pickByInput();
  const handle = (await unlessCancelled(show.call(window, { types })))?.[0];
  if (handle === undefined) return undefined;
  const file = await handle.getFile();
  return { name: handle.name, text: await file.text(), version: versionOf(file), handle };
}

/** Asks where to save; undefined when cancelled, `none` where the browser has no such question. */
export async function pickToSave(name: string): Promise<FileHandle | undefined | "none"> {
  const show = pickers().showSaveFilePicker;
  return show === undefined ? "none" : unlessCancelled(show.call(window, { types, suggestedName: name }));
}

/** Hands a text over as a download. */
export function download({
  name,
  text,
  type = "application/yaml",
}: {
  readonly name: string;
  readonly text: string;
  readonly type?: string;
}): void {
  downloadBlob(name, new Blob([text], { type }));
}

/** Hands a file of any kind over as a download. */
export function downloadBlob(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
