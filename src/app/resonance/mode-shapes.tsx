/** The first three modes side by side: where the winding is stressed, and where it carries current. */
import type { Solution } from "../../workbench/contract.ts";
import { ModeShape } from "./mode-shape.tsx";

export function ModeShapes({ solution }: { readonly solution: Solution }) {
  return (
    <section class="modes" aria-labelledby="modes-title">
      <h2 id="modes-title">Mode shapes</h2>
      <p class="legend">
        <span class="voltage-key">voltage, per volt at the top</span>{" "}
        <span class="current-key">current, per ampere at the base</span> <span>height in mm</span>
      </p>
      <div class="mode-row">
        {solution.modes.slice(0, 3).map((mode, index) => (
          <ModeShape key={mode.frequency} mode={mode} number={index + 1} />
        ))}
      </div>
    </section>
  );
}
