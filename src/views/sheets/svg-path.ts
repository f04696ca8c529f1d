/** From the paths of the circuit diagram, written as SVG, to segments: the letters M L H V C A Z, absolute and relative. */
import { type At, arc, type Segment } from "./page.ts";

interface Pen {
  at: At;
  start: At;
}

const counts: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, A: 7, Z: 0 };

/** @throws RangeError a letter that the house does not draw with */
export function segmentsOf(path: string): readonly Segment[] {
  const segments: Segment[] = [];
  const pen: Pen = { at: { x: 0, y: 0 }, start: { x: 0, y: 0 } };
  for (const [, letter = "", rest = ""] of path.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const count = counts[letter.toUpperCase()];
    if (count === undefined) throw new RangeError(`svg path: no meaning for ${letter}`);
    const numbers = (rest.match(/-?\d*\.?\d+(?:e-?\d+)?/g) ?? []).map(Number);
    const relative = letter !== letter.toUpperCase();
    if (count === 0) {
      segments.push({ kind: "close" });
      pen.at = pen.start;
      continue;
    }
    for (let n = 0; n + count <= numbers.length; n += count) {
      const command = letter.toUpperCase() === "M" && n > 0 ? "L" : letter.toUpperCase();
      segments.push(...drawn(command, numbers.slice(n, n + count), { pen, relative }));
    }
  }
  return segments;
}

function drawn(
  command: string,
  values: readonly number[],
  { pen, relative }: { pen: Pen; relative: boolean },
): Segment[] {
  const from = pen.at;
  const base = relative ? from : { x: 0, y: 0 };
  const value = (n: number) => values[n] ?? 0;
  const point = (n: number): At => ({ x: base.x + value(n), y: base.y + value(n + 1) });
  const lineTo = (to: At): Segment[] => {
    pen.at = to;
    return [{ kind: "line", to }];
  };
  switch (command) {
    case "M":
      pen.at = point(0);
      pen.start = pen.at;
      return [{ kind: "move", to: pen.at }];
    case "L":
      return lineTo(point(0));
    case "H":
      return lineTo({ x: base.x + value(0), y: from.y });
    case "V":
      return lineTo({ x: from.x, y: base.y + value(0) });
    case "C":
      pen.at = point(4);
      return [{ kind: "curve", first: point(0), second: point(2), to: pen.at }];
    default:
      pen.at = point(5);
      return roundArc({ from, to: pen.at, radius: value(0), large: value(3) === 1, clockwise: value(4) === 1 });
  }
}

/** Arc of a circle between two points, by the rules of SVG for equal radii: a radius that is too small grows. */
function roundArc({
  from,
  to,
  radius,
  large,
  clockwise,
}: {
  from: At;
  to: At;
  radius: number;
  large: boolean;
  clockwise: boolean;
}): Segment[] {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const chord = Math.hypot(dx, dy);
  const r = Math.max(radius, chord / 2);
  const away = Math.sqrt(Math.max(0, r * r - (chord / 2) ** 2)) * (large === clockwise ? -1 : 1);
  const centre = { x: (from.x + to.x) / 2 - (away * dy) / chord, y: (from.y + to.y) / 2 + (away * dx) / chord };
  const begin = Math.atan2(from.y - centre.y, from.x - centre.x);
  let sweep = Math.atan2(to.y - centre.y, to.x - centre.x) - begin;
  if (clockwise && sweep < 0) sweep += 2 * Math.PI;
  if (!clockwise && sweep > 0) sweep -= 2 * Math.PI;
  return arc({ centre, radius: r, from: begin, to: begin + sweep }).slice(1);
}
