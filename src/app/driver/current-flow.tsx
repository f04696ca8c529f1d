/** The loop that the current takes at the moment: dashes that have moved as far as the charge has, arrows that show which way. */
import { type Conducting, currentPath } from "../../views/schematic-current.ts";
import { column, rail } from "../../views/schematic-grid.ts";
import { greatest, moment } from "./driver-state.ts";

/** How far the dashes move while the tank swings from one peak to the other [page units]. */
const travel = 190;

const arrow = (x: number, y: number, toRight: boolean) =>
  toRight
    ? `M${x - 9} ${y - 9}L${x + 9} ${y}L${x - 9} ${y + 9}Z`
    : `M${x + 9} ${y - 9}L${x - 9} ${y}L${x + 9} ${y + 9}Z`;

export function CurrentFlow({ kind }: { readonly kind: "half" | "full" }) {
  const now = moment.value;
  const most = greatest.value;
  if (now === undefined || most === undefined) return null;
  const conducting: Conducting = Math.abs(now.current) < 1e-3 * most.current ? 0 : now.conducting;
  const width = 2.5 + 4.5 * Math.min(1, Math.abs(now.current) / (most.current || 1));
  const offset = -(now.charge / (most.charge || 1)) * travel;
  const forward = now.current >= 0;
  return (
    <g class="flow" data-conducting={conducting} data-forward={forward}>
      {currentPath(kind, conducting).map((path) => (
        <path key={path} class="loop" d={path} stroke-width={width} stroke-dashoffset={offset} />
      ))}
      {conducting !== 0 && (
        <path
          class="way"
          d={
            arrow(column.firstLeg + 56, rail.middle, forward) +
            arrow(column.primary - 60, rail.back, !forward) +
            arrow(column.secondLeg + 26, rail.middle, !forward)
          }
        />
      )}
    </g>
  );
}
