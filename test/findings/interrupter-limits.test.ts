import { describe, expect, it } from "vitest";
import { assess } from "../../src/findings/index.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import { editedText } from "./changed.ts";
import { quietDriver } from "./quiet-driver.ts";

const found = (text: string) =>
  assess({ file: readCoil(text) }).filter(({ rule }) => rule === "interrupter-over-limits");

// law: a setting past any one of the four limits is told, with the edit that brings it back
describe("a setting over the interrupter's limits", () => {
  it.each([
    [
      "on-time",
      { "interrupter.onTime": "60 µs", "interrupter.rate": "20 Hz" },
      "the on-time of 60 µs is above its limit of 55 µs",
    ],
    ["rate", { "interrupter.rate": "140 Hz" }, "the rate of 140 Hz is above its limit of 130 Hz"],
    ["duty", { "interrupter.limits.duty": "0.4 %" }, "a duty of 0.5 %, above its limit of 0.4 %"],
    [
      "pause",
      { "interrupter.limits.gap": "12 ms" },
      "9.95 ms are left between bursts of 50 µs, less than its limit of 12 ms",
    ],
  ])("by its %s", (_limit, edits, words) => {
    const text = editedText(quietDriver, edits);
    const [finding] = found(text);
    expect(finding?.severity).toBe("fix");
    expect(finding?.what).toContain(words);
    const edited = editCoil(text, finding!.remedies[0]!.edits);
    expect("text" in edited ? found(edited.text) : undefined).toEqual([]);
  });
});
