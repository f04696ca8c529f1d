/** Both pole plots on one frequency scale. Enter or the button under a plot writes a value into the file as one step. */
import { writeQuantity } from "../../units/index.ts";
import type { Solution } from "../../workbench/contract.ts";
import { commitEdits } from "../state/document.ts";
import { notice } from "../state/view.ts";
import { PolePlot } from "./pole-plot.tsx";

/** Frequencies worth looking at: around the poles as they are. Far taps run off the plot. */
function limitsOf({ figures, tracks }: Solution): readonly [number, number] {
  const all = tracks.flatMap(({ lower, upper }) => [...lower, ...upper]).filter(Number.isFinite);
  const lower = figures.get("poles.lower")?.value ?? Math.min(...all);
  const upper = figures.get("poles.upper")?.value ?? Math.max(...all);
  return [Math.max(Math.min(...all) * 0.97, lower * 0.62), Math.min(Math.max(...all) * 1.03, upper * 1.45)];
}

function write(label: string, path: string, value: string): void {
  const done = commitEdits(label, [{ path, value }]);
  notice.value = "problem" in done ? `Not applied: ${done.problem}` : `${label}: ${value}`;
}

export function PolePlots({ solution }: { readonly solution: Solution }) {
  const { coil, figures, tracks } = solution;
  const tap = tracks.find(({ against }) => against === "tap");
  const bank = tracks.find(({ against }) => against === "capacitance");
  const { primary, tank } = coil;
  if (primary === undefined || tank === undefined || (tap ?? bank) === undefined) {
    return <p class="empty">Poles need a primary and a tank in the file.</p>;
  }
  const limits = limitsOf(solution);
  const { each, series, parallel } = tank.bank;
  return (
    <div class="pole-plots">
      {tap && (
        <PolePlot
          track={tap}
          title="Poles against the tap"
          xLabel="turns in circuit"
          xUnit="1"
          present={primary.tap}
          matched={figures.get("tuning.tapForMatch")?.value}
          limits={limits}
          onTake={(at) => write("Set the tap", "primary.tap", String(Number(at.toFixed(2))))}
        />
      )}
      {bank && (
        <PolePlot
          track={bank}
          title="Poles against the tank capacitor"
          xLabel="capacitance of the bank, nF"
          xUnit="F"
          present={figures.get("tank.capacitance")?.value ?? (each * parallel) / series}
          matched={figures.get("tuning.capacitorForMatch")?.value}
          limits={limits}
          onTake={(at) =>
            write(
              "Set each capacitor of the bank",
              "tank.bank.each",
              writeQuantity({ value: Number(((at * series) / parallel).toPrecision(4)), unit: "nF" }),
            )
          }
        />
      )}
    </div>
  );
}
