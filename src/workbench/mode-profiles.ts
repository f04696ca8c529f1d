/** The winding's modes as curves a reader can look at. */
import type { CoilGeometry } from "../geometry/coil-geometry.ts";
import type { WindingMode } from "../resonator/winding-modes.ts";
import type { ModeProfile } from "./contract.ts";

/** Points along the winding, both ends included. */
const points = 201;

/** Voltage, current and axial field at even shares of the winding, base first; per volt at the top and per ampere at the base. */
export function modeProfile(mode: WindingMode, { winding }: CoilGeometry): ModeProfile {
  const { turns, pitch, firstHeight } = winding;
  const base = firstHeight - pitch / 2;
  const reached = new Float64Array(turns + 1);
  for (let j = 0; j < turns; j++) reached[j + 1] = reached[j]! + mode.turnVoltage[j]!;
  const along = (share: number): number => share * turns;
  const height = new Float64Array(points);
  const voltage = new Float64Array(points);
  const current = new Float64Array(points);
  const field = new Float64Array(points);
  for (let i = 0; i < points; i++) {
    const turn = along(i / (points - 1));
    height[i] = base + turn * pitch;
    voltage[i] = interpolated(reached, turn);
    current[i] = interpolated(mode.turnCurrent, turn - 0.5) / mode.baseCurrent;
    field[i] = interpolated(mode.turnVoltage, turn - 0.5) / pitch;
  }
  return { frequency: mode.frequency, height, voltage, current, field };
}

function interpolated(values: Float64Array, at: number): number {
  const low = Math.min(Math.max(Math.floor(at), 0), values.length - 1);
  const high = Math.min(low + 1, values.length - 1);
  const share = Math.min(Math.max(at - low, 0), 1);
  return values[low]! + share * (values[high]! - values[low]!);
}
