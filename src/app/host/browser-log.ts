/** The log of the bench in the browser's own store, one text for each coil file. */
import { get, update } from "idb-keyval";
import { logNameOf, withEntry } from "../../readers/bench-log.ts";
import type { Host } from "./host.ts";

const keyOf = (coilFile: string) => `coilwright.bench.${coilFile}`;
const refusing = { why: "this browser keeps nothing for this page; take the log away before you close it" };

export const browserLog: Pick<Host, "readLog" | "addToLog"> = {
  readLog: async (coilFile) => {
    const text = await get<string>(keyOf(coilFile)).catch(() => undefined);
    return { name: logNameOf(coilFile), text: text ?? "" };
  },
  addToLog: async (coilFile, entry) => {
    let text = "";
    try {
      await update<string>(keyOf(coilFile), (before = "") => {
        text = withEntry(before, entry) ?? before;
        return text;
      });
      return { name: logNameOf(coilFile), text };
    } catch {
      return refusing;
    }
  },
};
