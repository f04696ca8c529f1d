import type { Metre } from "../../units/si.ts";
import { line, type Outline, type Piece } from "../shape.ts";

/**
 * An upright capsule about its own axis: a half sphere, a cylinder, a half sphere, from `foot` to `top`.
 *
 * @validity top − foot ≥ 2·radius; with equality it is a sphere
 */
export function capsule({ radius, foot, top }: { radius: Metre; foot: Metre; top: Metre }): Outline {
  const [low, high] = [foot + radius, top - radius];
  const pieces: Piece[] = [
    { kind: "arc", centre: { r: 0, z: low }, radius, from: -Math.PI / 2, to: 0 },
    line({ from: { r: radius, z: low }, to: { r: radius, z: high } }),
    { kind: "arc", centre: { r: 0, z: high }, radius, from: 0, to: Math.PI / 2 },
  ];
  return pieces.filter((p) => p.kind === "arc" || high - low > 1e-9 * radius);
}
