/** The voltage along the winding in its first mode, drawn beside it: straight out from each turn. */

import { formatQuantity } from "../../units/index.ts";
import type { WindingDetail } from "../../views/drawing.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";
import type { ModeProfile } from "../../workbench/contract.ts";
import { topVoltage } from "../state/top-voltage.ts";
import { SeenOnly } from "./seen-only.tsx";

interface Properties {
  readonly mode: ModeProfile;
  readonly winding: WindingDetail;
  readonly projection: Projection;
}

const width = 64;

export function WindingProfile({ mode, winding, projection }: Properties) {
  const foot = winding.radius + winding.overall;
  const at = (index: number, out: number) => {
    const { x, y } = toPage({ x: foot, z: mode.height[index] ?? 0 }, projection);
    return `${(x + 6 + out * width).toFixed(1)} ${y.toFixed(1)}`;
  };
  const last = mode.height.length - 1;
  const curve = Array.from(mode.height, (_, i) => at(i, mode.voltage[i] ?? 0)).join("L");
  const top = toPage({ x: foot, z: mode.height[last] ?? 0 }, projection);
  return (
    <SeenOnly class="winding-profile">
      <path class="area" d={`M${at(0, 0)}L${curve}L${at(last, 0)}Z`} />
      <path class="curve" d={`M${curve}`} />
      <path class="foot" d={`M${at(0, 0)}L${at(last, 0)}`} />
      <text x={top.x + 10} y={top.y - 6}>
        {formatQuantity((mode.voltage[last] ?? 1) * topVoltage.value, "V", { digits: 3, trim: true })}
      </text>
    </SeenOnly>
  );
}
