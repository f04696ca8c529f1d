/** Saving a coil file: whole or not at all. */
import { createHash } from "node:crypto";
import {
  chmod,
  type FileHandle,
  lstat,
  mkdir,
  open,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  symlink,
  writeFile,
} from "node:fs/promises";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Disk, readCoilText, saveCoilText } from "../../src/server/coil-on-disk.ts";
import { coilText, makeBench } from "./temporary.ts";

const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");
const asRoot = process.getuid?.() === 0;

describe("reading", () => {
  it("gives the text and the SHA-256 of its bytes", async () => {
    const { file } = await makeBench();
    expect(await readCoilText(file)).toEqual({ text: coilText, version: sha256(coilText) });
  });

  it("keeps a byte-order mark and the line ends, so that saving gives back what was read", async () => {
    const { file } = await makeBench();
    const bytes = Buffer.from("\uFEFFcoilwright: 1\r\nname: Ω\r\n", "utf8");
    await writeFile(file, bytes);
    const found = await readCoilText(file);
    await saveCoilText({ path: file, text: found!.text, baseVersion: found!.version });
    expect(await readFile(file)).toEqual(bytes);
  });

  it("finds nothing where nothing is", async () => {
    const { file } = await makeBench();
    expect(await readCoilText(`${file}.gone`)).toBeUndefined();
    expect(await readCoilText(join(file, "below"))).toBeUndefined();
  });

  it.each([
    ["a folder", "not-a-file", (file: string) => rm(file).then(() => mkdir(file))],
    ["bytes that are not UTF-8", "not-utf-8", (file: string) => writeFile(file, Buffer.from([0x6e, 0xff, 0xfe]))],
    ["a file of a megabyte", "file-too-large", (file: string) => writeFile(file, "#".repeat(1024 * 1024 + 1))],
  ])("refuses %s", async (_what, code, spoil) => {
    const { file } = await makeBench();
    await spoil(file);
    await expect(readCoilText(file)).rejects.toMatchObject({ name: "ServeError", code });
  });
});

describe("saving", () => {
  const newText = "coilwright: 1\nname: Lantern II\n";
  const save = (path: string, disk?: Disk) =>
    saveCoilText({ path, text: newText, baseVersion: sha256(coilText) }, disk);

  it("replaces the text, keeps the mode and leaves nothing beside it", async () => {
    const { file } = await makeBench();
    await chmod(file, 0o640);
    expect(await save(file)).toEqual({ kind: "saved", version: sha256(newText) });
    expect(await readFile(file, "utf8")).toBe(newText);
    expect((await stat(file)).mode & 0o7777).toBe(0o640);
    expect(await readdir(dirname(file))).toEqual(["lantern.yaml"]);
  });

  it("follows a symbolic link to its target and leaves the link a link", async () => {
    const { folder, file } = await makeBench();
    const link = join(folder, "link.yaml");
    await symlink(file, link);
    expect((await save(link)).kind).toBe("saved");
    expect((await lstat(link)).isSymbolicLink()).toBe(true);
    expect(await readFile(file, "utf8")).toBe(newText);
  });

  it("does not replace a text that changed meanwhile, and tells what is there", async () => {
    const { file } = await makeBench();
    const other = "coilwright: 1\nname: Somebody else's\n";
    await writeFile(file, other);
    expect(await save(file)).toEqual({ kind: "conflict", found: { text: other, version: sha256(other) } });
    expect(await readFile(file, "utf8")).toBe(other);
  });

  it("does not replace a text that changes while the new one is written aside", async () => {
    const { file } = await makeBench();
    const other = "coilwright: 1\nname: Quick\n";
    const disk: Disk = {
      rename,
      open: async (path, flags, mode) => {
        await writeFile(file, other);
        return open(path, flags, mode);
      },
    };
    expect(await save(file, disk)).toMatchObject({ kind: "conflict", found: { text: other } });
    expect(await readFile(file, "utf8")).toBe(other);
    expect(await readdir(dirname(file))).toEqual(["lantern.yaml"]);
  });

  it("tells a deleted file from a changed one, and makes it again only when asked to", async () => {
    const { file } = await makeBench();
    await rm(file);
    expect(await save(file)).toEqual({ kind: "conflict", found: undefined });
    await expect(stat(file)).rejects.toThrow("ENOENT");
    expect((await saveCoilText({ path: file, text: newText, baseVersion: null })).kind).toBe("saved");
    expect(await readFile(file, "utf8")).toBe(newText);
    expect(await saveCoilText({ path: file, text: coilText, baseVersion: null })).toMatchObject({ kind: "conflict" });
  });

  /** A disk on which one step fails as the platform would let it fail. */
  const failing = (step: "open" | "write" | "sync" | "rename", code: string): Disk => {
    const fail = () => Promise.reject(Object.assign(new Error(`${code}: planted`), { code }));
    return {
      rename: step === "rename" ? fail : rename,
      open: async (path, flags, mode) => {
        if (step === "open") return fail();
        const handle: FileHandle = await open(path, flags, mode);
        if (step === "sync") handle.sync = fail;
        if (step === "write") {
          handle.writeFile = async () => {
            await handle.write("half of");
            return fail();
          };
        }
        return handle;
      },
    };
  };

  it.each([
    ["open", "EACCES", "folder-read-only"],
    ["open", "EROFS", "folder-read-only"],
    ["open", "ENOENT", "folder-missing"],
    ["write", "ENOSPC", "disk-full"],
    ["sync", "EIO", "not-saved"],
    ["rename", "EPERM", "folder-read-only"],
    ["rename", "EIO", "not-saved"],
  ] as const)("leaves the file byte for byte and no scrap when %s fails with %s", async (step, platform, code) => {
    const { file } = await makeBench();
    await expect(save(file, failing(step, platform))).rejects.toMatchObject({ name: "ServeError", code });
    expect(await readFile(file, "utf8")).toBe(coilText);
    expect(await readdir(dirname(file))).toEqual(["lantern.yaml"]);
  });

  // A system administrator may write everywhere, so the real refusal can be seen by an ordinary user only.
  it.skipIf(asRoot)("says that a real read-only folder cannot be written to", async () => {
    const { file } = await makeBench();
    await chmod(dirname(file), 0o555);
    await expect(save(file)).rejects.toMatchObject({ code: "folder-read-only" });
    await chmod(dirname(file), 0o755);
    expect(await readFile(file, "utf8")).toBe(coilText);
  });

  it("leaves a write-protected file alone, though renaming could replace it", async () => {
    const { file } = await makeBench();
    await chmod(file, 0o444);
    await expect(save(file)).rejects.toMatchObject({ code: "file-write-protected" });
    expect(await readFile(file, "utf8")).toBe(coilText);
  });

  it("saves a file with the longest name that the file system takes", async () => {
    const { file } = await makeBench();
    const long = join(dirname(file), `${"n".repeat(250)}.yaml`);
    await rename(file, long);
    expect((await save(long)).kind).toBe("saved");
  });

  it.each([
    ["half a character", "name: \uD83D", "not-unicode"],
    ["more than a megabyte", "#".repeat(1024 * 1024 + 1), "file-too-large"],
  ])("refuses %s", async (_what, text, code) => {
    const { file } = await makeBench();
    await expect(saveCoilText({ path: file, text, baseVersion: sha256(coilText) })).rejects.toMatchObject({ code });
    expect(await readFile(file, "utf8")).toBe(coilText);
  });
});
