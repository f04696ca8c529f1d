/** What each thing around the coil does to f1: bars from the tune that it would have without. */
import { formatQuantity } from "../../units/index.ts";
import type { Solution } from "../../workbench/contract.ts";
import { jumpTo } from "../findings/jump.ts";

const width = 150;

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
          const part = f1 === undefined ? "" : ` (${((shift / f1) * 100).toFixed(2).replace("-", "−")} %)`;
          return (
            <li key={path}>
              <button type="button" class="quiet" onClick={() => jumpTo(path)}>
                {says}
              </button>
              <svg width={width} height="14" aria-hidden="true">
                <rect class={shift < 0 ? "down" : "up"} x={width - length} y="2" width={length} height="10" />
                <path d={`M${width - 0.5} 0V14`} />
              </svg>
              <span class="number">{`${formatQuantity(shift, "Hz", { digits: 3 })}${part}`}</span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
