/** No server: files come by picker or by dragging in, go out by handle or download, and the last text is kept in the browser. */

import { browserLog } from "./browser-log.ts";
import type { Host, Saved } from "./host.ts";
import { download, type FileHandle, pickToOpen, pickToSave, versionOf } from "./pick-file.ts";

/** A host that has only the browser. */
export function browserHost(): Host {
  let handle: FileHandle | undefined;

  const write = async (to: FileHandle, text: string): Promise<Saved> => {
    const writable = await to.createWritable();
    await writable.write(text);
    await writable.close();
    handle = to;
    return { kind: "saved", version: versionOf(await to.getFile()), name: to.name };
  };

  const saveAs: Host["saveAs"] = async ({ name, text }) => {
    const to = await pickToSave(name);
    if (to === undefined) return { kind: "cancelled" };
    if (to !== "none") return write(to, text);
    download({ name, text });
    return { kind: "elsewhere" };
  };

  return {
    kind: "browser",
    first: async () => undefined,
    open: async () => {
      const picked = await pickToOpen();
      return (
        picked && {
          ...picked,
          adopt: () => {
            handle = picked.handle;
          },
        }
      );
    },
    save: async ({ name, text, base }) => {
      if (handle === undefined) return saveAs({ name, text });
      const there = await handle.getFile();
      if (base !== undefined && versionOf(there) !== base) {
        return { kind: "conflict", text: await there.text(), version: versionOf(there) };
      }
      return write(handle, text);
    },
    saveAs,
    watch: () => undefined,
    ...browserLog,
    release: () => {
      handle = undefined;
    },
  };
}
