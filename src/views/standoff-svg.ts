/** A drawing of the room as SVG to scale: in millimetres of the page, black on white, every mark named. */

import { pathText } from "./drawing-path.ts";
import { escaped } from "./escaped.ts";
import type { FloorDrawing, FloorMark, FloorTone } from "./standoff-plan.ts";

/** Line, its dashes and the paint of each kind of mark: told apart without colour. */
const pens: Readonly<
  Record<FloorTone, { readonly weight: number; readonly dash?: string; readonly ink: string; readonly fill?: string }>
> = {
  coil: { weight: 0.35, ink: "#1b2226", fill: "#e9e4da" },
  arc: { weight: 0.5, ink: "#b02a55", fill: "#b02a5518" },
  strike: { weight: 0.5, dash: "2.4 1.2", ink: "#b02a55" },
  line: { weight: 0.9, ink: "#0b5263" },
  barrier: { weight: 0.7, dash: "0.6 1", ink: "#1b2226" },
  room: { weight: 0.7, ink: "#4c5b66" },
  people: { weight: 0.35, ink: "#1b2226", fill: "#ffffff" },
  crew: { weight: 0.45, ink: "#1b2226", fill: "#f2d9a6" },
  metal: { weight: 0.45, ink: "#4c5b66" },
  ground: { weight: 0.5, ink: "#4c5b66" },
};

/** Scales of drawings [metres for each metre of paper], the least that fits is taken. */
const scales = [5, 10, 20, 25, 50, 75, 100, 150, 200, 300, 500, 1000];

/** @param width  of the paper that it may fill [mm]; @returns a whole SVG document that refers to nothing outside it */
export function floorSvg(
  drawn: FloorDrawing,
  { width = 180, height = 180 }: { width?: number; height?: number } = {},
): string {
  const { box, marks, says, name, kind } = drawn;
  const [across, up] = [box.right - box.left, box.top - box.bottom];
  const scale =
    scales.find((one) => (1000 * across) / one <= width && (1000 * up) / one <= height) ??
    Math.ceil((1000 * Math.max(across / width, up / height)) / 100) * 100;
  const perMetre = 1000 / scale;
  const [wide, high] = [across * perMetre, up * perMetre];
  const projection = { scale: perMetre, originX: -box.left * perMetre, originY: box.top * perMetre };
  const foot = 7;
  const draw = ({ tone, strokes, says: words }: FloorMark): string => {
    const { weight, dash, ink, fill } = pens[tone];
    const closed = strokes.every((stroke) => stroke.kind === "arc" || stroke.closed);
    return `<path d="${pathText(strokes, projection)}" fill="${closed && fill ? fill : "none"}" stroke="${ink}" stroke-width="${weight}"${dash ? ` stroke-dasharray="${dash}"` : ""}><title>${escaped(words)}</title></path>`;
  };
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${wide.toFixed(2)}mm" height="${(high + foot).toFixed(2)}mm" viewBox="0 0 ${wide.toFixed(2)} ${(high + foot).toFixed(2)}" role="img">
<title>${escaped(`${name}, ${kind}`)}</title>
<desc>${escaped(says)}</desc>
<rect width="100%" height="100%" fill="#ffffff"/>
${marks.map(draw).join("\n")}
<g font-family="sans-serif" font-size="2.6" fill="#1b2226">
${spread(marks, projection)
  .map(
    ({ x, y, text, anchor }) =>
      `<text x="${x.toFixed(2)}" y="${y.toFixed(2)}" text-anchor="${anchor}" paint-order="stroke" stroke="#ffffff" stroke-width="0.8">${escaped(text)}</text>`,
  )
  .join("\n")}
<text x="1" y="${(high + foot - 2).toFixed(2)}">${escaped(`${name}, ${kind} 1:${scale}. Estimates with stated intervals; no permission.`)}</text>
</g>
</svg>
`;
}

/** Labels moved up where they would lie on one another. */
function spread(
  marks: readonly FloorMark[],
  { scale, originX, originY }: { scale: number; originX: number; originY: number },
): readonly { readonly x: number; readonly y: number; readonly text: string; readonly anchor: string }[] {
  const size = { line: 3, letter: 1.5 };
  const placed: { x: number; y: number; text: string; anchor: string; left: number; right: number }[] = [];
  for (const { label } of marks) {
    if (label === undefined) continue;
    const { at, text, anchor } = label;
    const long = text.length * size.letter;
    const x = originX + at.x * scale;
    const left = anchor === "start" ? x : anchor === "end" ? x - long : x - long / 2;
    let y = Math.max(size.line, originY - at.z * scale - 0.6);
    const overlaps = () =>
      placed.some((one) => Math.abs(one.y - y) < size.line && one.left < left + long && one.right > left);
    while (overlaps()) y += size.line;
    placed.push({ x, y, text, anchor, left, right: left + long });
  }
  return placed;
}
