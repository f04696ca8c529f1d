/** Records for the room Bench, simulated as a bench would save them, and a way to drop them on the page. */
import type { Page } from "playwright-core";
import type { Coil } from "../../src/description/coil.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { withNumber } from "../../src/workbench/coil-path.ts";
import { type Bench, benchRecord, exampleText } from "../workbench/match-bench.ts";

export const inkwellText = exampleText("inkwell");

export const coilOf = (name: string): Coil => {
  const { coil } = readCoil(exampleText(name));
  if (coil === undefined) throw new Error(`${name} is no coil`);
  return coil;
};

/** Inkwell with a tank capacitor 8 % low, which nobody told the drawing. */
export const withLowCapacitor = (): Coil => {
  const coil = coilOf("inkwell");
  return withNumber(coil, "tank.bank.each", 0.92 * (coil.tank?.bank.each ?? 0));
};

/** A CSV of primary current, loop and gate; the current in amperes, or as the voltage at a burden of 5.1 Ω behind 1 : 1000. */
export function csvOf(coil: Coil, bench: Bench, { asVoltage = false }: { asVoltage?: boolean } = {}): string {
  const made = benchRecord(coil, bench);
  if (!("record" in made)) throw new Error("no record over time");
  const { start, interval, length, channels } = made.record;
  const rows = [`Time [s],CT [${asVoltage ? "V" : "A"}],loop [V],int [V]`];
  for (let n = 0; n < length; n++) {
    const values = channels.map(({ samples }, c) =>
      ((samples[n] ?? 0) * (asVoltage && c === 0 ? 5.1e-3 : 1)).toPrecision(5),
    );
    rows.push([(start + n * interval).toExponential(6), ...values].join(","));
  }
  return `${rows.join("\n")}\n`;
}

/** Drops files on an element, as a hand does. */
export async function drop(page: Page, on: string, files: readonly { name: string; text: string }[]): Promise<void> {
  await page
    .locator(on)
    .first()
    .evaluate((element, given) => {
      const dataTransfer = new DataTransfer();
      for (const { name, text } of given) dataTransfer.items.add(new File([text], name));
      for (const type of ["dragover", "drop"])
        element.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }));
    }, files);
}
