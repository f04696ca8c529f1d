/** What each thing around the coil does to f1: bars from the tune that it would have without. */
import { formatQuantity } from "../../units/index.ts";
import type { Solution } from "../../workbench/contract.ts";
import { jumpTo } from "../findings/jump.ts";

const width = 150;

/** The shift as a part of f1, where it is worth a number. */
function partOf(shift: number, f1: number | undefined): string {
  if (f1 === undefined) return "";
  const percent = (shift / f1) * 100;
  return Math.abs(percent) < 0.01 ? ", under 0.01 %" : `, ${percent.toFixed(2).replace("-", "−")} %`;
}

export function DetuningBars({ solution }: { readonly solution: Solution }) {
  const { detunings } = solution;
  const f1 = solution.figures.get("secondary.f1")?.value;
  const greatest = Math.max(...detunings.map(({ shift }) => Math.abs(shift)), 1e-9);
  return (
    <section class="detunings" aria-labelledby="detunings-title">
      <h2 id="detunings-title">What the surroundings do to f1</h2>
      {detunings.length === 0 && <p class="empty">No wall, ceiling, person, object or ring is in the file.</p>}
      <ol class="bars" aria-labelledby="detunings-title">
        {detunings.map(({ path, says, shift }) => {
          const length = (Math.abs(shift) / greatest) * width;
          return (
            <li key={path}>
              <button type="button" class="quiet" onClick={() => jumpTo(path)}>
                {says}
              </button>
              <svg width={width} height="14" aria-hidden="true">
                <rect class={shift < 0 ? "down" : "up"} x={width - length} y="2" width={length} height="10" />
                <path d={`M${width - 0.5} 0V14`} />
              </svg>
              <span class="number">{`${formatQuantity(shift, "Hz", { digits: 3 })}${partOf(shift, f1)}`}</span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
