import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { UserError } from "../../src/cli/io.ts";
import { nodeIo } from "../../src/cli/node-io.ts";

let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "coilwright-cli-"));
});
afterEach(() => rm(folder, { recursive: true }));

// law: a save replaces the whole file or nothing, and leaves nothing else behind
describe("files on the disk", () => {
  const io = nodeIo();

  it("are made, read and replaced", async () => {
    const path = join(folder, "coil.yaml");
    await io.save(path, { text: "one", version: null });
    const found = await io.read(path);
    expect(found?.text).toBe("one");
    await io.save(path, { text: "two", version: found!.version });
    expect(await readFile(path, "utf8")).toBe("two");
    expect(await readdir(folder)).toEqual(["coil.yaml"]);
  });

  it("are not replaced where they are there already, or changed meanwhile", async () => {
    const path = join(folder, "coil.yaml");
    await writeFile(path, "theirs");
    await expect(io.save(path, { text: "mine", version: null })).rejects.toThrow(
      "is there already and was left as it is",
    );
    const found = await io.read(path);
    await writeFile(path, "changed");
    await expect(io.save(path, { text: "mine", version: found!.version })).rejects.toThrow(
      "changed by somebody else meanwhile",
    );
    expect(await readFile(path, "utf8")).toBe("changed");
  });

  it("that cannot be read say why in words", async () => {
    expect(await io.read(join(folder, "gone.yaml"))).toBeUndefined();
    await expect(io.read(folder)).rejects.toThrow(UserError);
    await writeFile(join(folder, "latin.yaml"), Buffer.from([0x6e, 0xe4, 0x0a]));
    await expect(io.read(join(folder, "latin.yaml"))).rejects.toThrow("is not UTF-8 text");
  });

  it("go into folders that are made, or it is said why not", async () => {
    await io.folder(join(folder, "deep", "er"));
    await io.folder(join(folder, "deep", "er"));
    expect(await readdir(join(folder, "deep"))).toEqual(["er"]);
    await writeFile(join(folder, "taken"), "theirs");
    await expect(io.folder(join(folder, "taken"))).rejects.toThrow("is there already and is no folder");
    await expect(io.folder(join(folder, "taken", "in it"))).rejects.toThrow(UserError);
    expect(await readFile(join(folder, "taken"), "utf8")).toBe("theirs");
  });

  // law: a file system that refuses every new folder is told, and does not hold the program up
  it.runIf(process.platform === "linux")("are refused at once where no folder can be", async () => {
    await expect(io.folder("/proc/coilwright")).rejects.toThrow("cannot be made");
  });
});
