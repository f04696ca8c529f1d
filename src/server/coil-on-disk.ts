/** The one file that is served: read as text, versioned by its content, saved so that no failure leaves half a file. */
import { createHash, randomBytes } from "node:crypto";
import { type FileHandle, open, readFile, realpath, rename, stat, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import {
  largestFile,
  notAFile,
  notReadable,
  notSaved,
  notUnicode,
  notUtf8,
  tooLarge,
  writeProtected,
} from "./disk-errors.ts";
import { platformCode, ServeError } from "./errors.ts";

export interface TextOnDisk {
  readonly text: string;
  /** SHA-256 of the bytes, in hexadecimal. */
  readonly version: string;
}

/** The steps of saving that can fail on their own; the tests let each one fail. */
export interface Disk {
  open(path: string, flags: string, mode: number): Promise<FileHandle>;
  rename(from: string, to: string): Promise<void>;
}
const realDisk: Disk = { open, rename };

const versionOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

/**
 * Reads a coil file.
 * @returns undefined where there is no such file
 * @throws ServeError  it is not a file, it is larger than `largestFile`, it is not UTF-8, or it may not be read
 */
export async function readCoilText(path: string): Promise<TextOnDisk | undefined> {
  try {
    const found = await stat(path);
    if (!found.isFile()) throw notAFile(path);
    if (found.size > largestFile) throw tooLarge(path);
    const bytes = await readFile(path);
    // A byte-order mark stays in the text, so that saving gives back what was read.
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    return { text, version: versionOf(bytes) };
  } catch (error) {
    const code = platformCode(error);
    if (code === "ENOENT" || code === "ENOTDIR") return undefined;
    if (code === "ERR_ENCODING_INVALID_ENCODED_DATA") throw notUtf8(path);
    if (code === "EACCES" || code === "EPERM") throw notReadable(path);
    throw error;
  }
}

/** What came of a save: the new version, or what stands on the disk instead of the version that was to be replaced. */
export type Saved =
  | { readonly kind: "saved"; readonly version: string }
  | { readonly kind: "conflict"; readonly found: TextOnDisk | undefined };

/**
 * Replaces the text of a coil file, whole or not at all: written aside in the same folder, forced to the disk, renamed.
 *
 * A symbolic link is followed and stays a link; the file keeps its mode. A file without any write permission is left alone.
 * @param baseVersion  the version that the new text was made from; null where no file is expected to be there
 * @throws ServeError  the folder or the file cannot be written; the file on the disk is then byte for byte what it was
 */
export async function saveCoilText(
  { path, text, baseVersion }: { path: string; text: string; baseVersion: string | null },
  disk: Disk = realDisk,
): Promise<Saved> {
  const bytes = Buffer.from(text, "utf8");
  if (bytes.toString("utf8") !== text) throw notUnicode();
  if (bytes.length > largestFile) throw tooLarge(path);
  const before = await readCoilText(path);
  if ((before?.version ?? null) !== baseVersion) return { kind: "conflict", found: before };

  const target = before === undefined ? path : await realpath(path);
  const mode = before === undefined ? 0o644 : await modeOf(target);
  const aside = join(dirname(target), `.${basename(target).slice(0, 100)}.${randomBytes(6).toString("hex")}.tmp`);
  try {
    await writeAside({ aside, bytes, mode, target: before === undefined ? undefined : target }, disk);
    const meanwhile = await readCoilText(path);
    if (meanwhile?.version !== before?.version) {
      await unlink(aside);
      return { kind: "conflict", found: meanwhile };
    }
    await disk.rename(aside, target);
  } catch (error) {
    await unlink(aside).catch(() => undefined);
    throw error instanceof ServeError ? error : notSaved(target, error);
  }
  await settleFolder(dirname(target));
  return { kind: "saved", version: versionOf(bytes) };
}

/** The permissions of a file that may be replaced. */
async function modeOf(target: string): Promise<number> {
  const { mode } = await stat(target);
  // Renaming would get round a write protection that somebody set on purpose.
  if ((mode & 0o222) === 0) throw writeProtected(target);
  return mode & 0o7777;
}

async function writeAside(
  { aside, bytes, mode, target }: { aside: string; bytes: Uint8Array; mode: number; target: string | undefined },
  disk: Disk,
): Promise<void> {
  const handle = await disk.open(aside, "wx", 0o600);
  try {
    await handle.writeFile(bytes);
    if (target !== undefined) await keepOwner(handle, target);
    await handle.chmod(mode);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** An administrator who saves somebody's file leaves it theirs; anybody else owns what they write. */
async function keepOwner(handle: FileHandle, target: string): Promise<void> {
  const { uid, gid } = await stat(target);
  await handle.chown(uid, gid).catch(() => undefined);
}

/** Forces the renaming itself to the disk, where the platform can do that for a folder. */
async function settleFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r").catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
