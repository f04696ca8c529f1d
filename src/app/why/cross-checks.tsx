/** Handbook formulas beside the solution, with how far each is off and whether it may be trusted for this coil. */
import type { Figure } from "../../catalogue/figure.ts";
import { shownParts } from "../ledger/ledger-rows.ts";

export function CrossChecks({ figure }: { readonly figure: Figure }) {
  return (
    <ul class="cross-checks">
      {figure.crossChecks.map(({ name, value, validity, valid }) => {
        const { number, unit } = shownParts({ ...figure, value });
        const off = figure.value === 0 ? undefined : ((value - figure.value) / figure.value) * 100;
        return (
          <li key={name}>
            <span>{name}</span>
            <span class="number">{`${number} ${unit}`}</span>
            <span class="number">{off !== undefined && `${off < 0 ? "−" : "+"}${Math.abs(off).toFixed(1)} %`}</span>
            <small>
              {valid ? "inside its range" : "outside its range"}: {validity}
            </small>
          </li>
        );
      })}
    </ul>
  );
}
