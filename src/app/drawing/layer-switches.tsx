/** Switches of the painted layers; each wears the line it draws. The top voltage gives their numbers. */
import type { ComponentChildren } from "preact";
import { type Layer, layers, toggleLayer } from "../state/view.ts";
import { TopVoltage } from "./top-voltage.tsx";

const swatches: readonly { readonly layer: Layer; readonly label: string; readonly swatch: ComponentChildren }[] = [
  {
    layer: "potential",
    label: "Potential",
    swatch: <path class="potential-swatch" d="M1 9C6 1 16 1 21 9M4 11C8 5 14 5 18 11" />,
  },
  { layer: "field", label: "Field", swatch: <path class="field-swatch" d="M1 2h7v9h-7zM8 2h7v9h-7zM15 2h6v9h-6z" /> },
  {
    layer: "winding",
    label: "Winding",
    swatch: <path class="winding-swatch" d="M2 12V1M2 12C8 11 17 8 20 1" />,
  },
  { layer: "peaks", label: "Peaks", swatch: <path class="peaks-swatch" d="M7 3l8 7M15 3l-8 7" /> },
];

export function LayerSwitches() {
  return (
    <fieldset class="cluster layers" aria-label="Painted layers">
      {swatches.map(({ layer, label, swatch }) => (
        <button key={layer} type="button" aria-pressed={layers.value.has(layer)} onClick={() => toggleLayer(layer)}>
          <svg width="22" height="13" aria-hidden="true">
            {swatch}
          </svg>
          {label}
        </button>
      ))}
      <TopVoltage />
    </fieldset>
  );
}
