/** Points of greatest surface field, with the field at the chosen top voltage. */

import { formatQuantity } from "../../units/index.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";
import type { PeakField } from "../../workbench/contract.ts";
import { topVoltage } from "../state/view.ts";
import { SeenOnly } from "./seen-only.tsx";

interface Properties {
  readonly peaks: readonly PeakField[];
  readonly projection: Projection;
}

export function PeakMarks({ peaks, projection }: Properties) {
  return (
    <SeenOnly class="peaks">
      {peaks.map((peak) => {
        const { x, y } = toPage({ x: peak.radius, z: peak.height }, projection);
        const words = formatQuantity(peak.fieldPerVolt * topVoltage.value, "V/m", { digits: 3, trim: true });
        return (
          <g
            key={`${peak.part} ${peak.radius} ${peak.height}`}
            transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}
          >
            <path class="mark" d="M-6 -6L6 6M-6 6L6 -6" />
            <circle r={8.5} />
            <text x={13} y={-7}>
              {words}
            </text>
          </g>
        );
      })}
    </SeenOnly>
  );
}
