/** Field maps of the text on the table, asked for only while a layer shows them. */
import { effect, signal } from "@preact/signals";
import type { CoilFile } from "../../workbench/contract.ts";
import { settled } from "../state/answers.ts";
import { drawable } from "../state/document.ts";
import { layers, notice } from "../state/view.ts";
import type { MappedField, MapWindow } from "../worker/answer.ts";
import { latestOnly, slowBench } from "../worker/bench.ts";

/** The newest map; one of an older text stays, dimmed, until the next is there. */
export const mapped = signal<MappedField | undefined>(undefined);
export const mapping = signal(false);

const columns = 96;
const rows = 128;

/** Keeps the map asked for; called once. */
export function followMaps(): void {
  const ask = latestOnly(
    async ({ file, window }: { file: CoilFile; window: MapWindow }) => {
      mapping.value = true;
      return slowBench()
        .map(file, window)
        .catch((error: unknown) => {
          notice.value = `The field could not be mapped: ${error instanceof Error ? error.message : String(error)}`;
          return undefined;
        });
    },
    (got, isLate) => {
      mapping.value = isLate;
      if (got !== undefined) mapped.value = got;
    },
  );
  effect(() => {
    const wanted = layers.value.has("potential") || layers.value.has("field");
    const text = settled.value?.solution === undefined ? undefined : settled.value.text;
    if (!wanted || text === undefined || mapped.peek()?.text === text) return;
    const coil = drawable.peek();
    if (coil === undefined) return;
    const { topload, primary } = coil.coil;
    const height = Math.max(...topload.map((load) => Object.values(load)[0].height), 0.1) * 1.45;
    const ring = primary?.strikeRing?.diameter ?? 0;
    const radius = Math.max(height * 0.85, ring * 0.8);
    ask({ file: coil.file, window: { radius, height, columns, rows } });
  });
}
