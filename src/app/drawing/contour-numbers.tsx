/** Numbers on the contours at the chosen top voltage, each where nothing else is written. */
import { formatQuantity } from "../../units/index.ts";
import { type PlacedLabel, placeLabels } from "../../views/drawing-labels.ts";
import type { FieldMap } from "../../workbench/contract.ts";
import { topVoltage } from "../state/top-voltage.ts";
import { layers } from "../state/view.ts";
import { fieldLines, potentialLines } from "./field-contours.ts";
import type { LayerPage } from "./layer-page.ts";
import { SeenOnly } from "./seen-only.tsx";

const Numbers = ({ of, labels }: { readonly of: string; readonly labels: readonly PlacedLabel[] }) => (
  <g class={of}>
    {labels.map(({ level, at, text }) => (
      <text key={level} x={at.x} y={at.y} dy="0.34em" text-anchor="middle">
        {text}
      </text>
    ))}
  </g>
);

export function ContourNumbers({ map, page }: { readonly map: FieldMap; readonly page: LayerPage }) {
  const voltage = topVoltage.value;
  const numbers = (contours: ReturnType<typeof fieldLines>, unit: string, taken: LayerPage["taken"]) =>
    placeLabels({
      ...page,
      taken,
      contours,
      textOf: (level) => formatQuantity(level * voltage, unit, { digits: 2, trim: true }),
    });
  const potential = layers.value.has("potential") ? numbers(potentialLines(map, 1), "V", page.taken) : [];
  const taken = [...page.taken, ...potential.map(({ box }) => box)];
  const field = layers.value.has("field") ? numbers(fieldLines(map, voltage), "V/m", taken) : [];
  return (
    <SeenOnly>
      <Numbers of="potential" labels={potential} />
      <Numbers of="field" labels={field} />
    </SeenOnly>
  );
}
