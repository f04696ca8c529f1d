/** Points of greatest surface field, with the field at the chosen top voltage. */
import type { PlacedPeak } from "./peak-places.ts";
import { SeenOnly } from "./seen-only.tsx";

export function PeakMarks({ peaks }: { readonly peaks: readonly PlacedPeak[] }) {
  return (
    <SeenOnly class="peaks">
      {peaks.map(({ key, at, words }) => (
        <g key={key} transform={`translate(${at.x.toFixed(1)} ${at.y.toFixed(1)})`}>
          <path class="mark" d="M-5 -5L5 5M-5 5L5 -5" />
          <circle r={8} />
          <text x={12} y={-7}>
            {words}
          </text>
        </g>
      ))}
    </SeenOnly>
  );
}
