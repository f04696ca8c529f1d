/** Numbers on contours. */
import type { PlacedLabel } from "../../views/drawing-labels.ts";

export const ContourLabels = ({ labels }: { readonly labels: readonly PlacedLabel[] }) => (
  <>
    {labels.map(({ level, at, text }) => (
      <text key={level} x={at.x} y={at.y} dy="0.34em" text-anchor="middle">
        {text}
      </text>
    ))}
  </>
);
