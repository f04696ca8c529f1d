/** Border of the drafting sheet with its zones, letters down and numbers across, so that two people can talk about a spot. */

import type { PageSize } from "../../views/drawing-fit.ts";
import { SeenOnly } from "./seen-only.tsx";

export const frameInset = 14;

const zoneEvery = 150;

export function SheetFrame({ width, height }: PageSize) {
  const across = Math.max(2, Math.round((width - 2 * frameInset) / zoneEvery));
  const down = Math.max(2, Math.round((height - 2 * frameInset) / zoneEvery));
  const stepX = (width - 2 * frameInset) / across;
  const stepY = (height - 2 * frameInset) / down;
  const far = { x: width - frameInset, y: height - frameInset };
  const strips = [
    { x: 0, y: 0, width, height: frameInset },
    { x: 0, y: far.y, width, height: frameInset },
    { x: 0, y: 0, width: frameInset, height },
    { x: far.x, y: 0, width: frameInset, height },
  ];
  const ticksX = Array.from({ length: across - 1 }, (_, i) => frameInset + stepX * (i + 1));
  const ticksY = Array.from({ length: down - 1 }, (_, i) => frameInset + stepY * (i + 1));
  const border = `M${frameInset} ${frameInset}H${far.x}V${far.y}H${frameInset}Z`;
  const marks = [
    ...ticksX.map((x) => `M${x} 3V${frameInset}M${x} ${far.y}V${height - 3}`),
    ...ticksY.map((y) => `M3 ${y}H${frameInset}M${far.x} ${y}H${width - 3}`),
  ].join("");
  return (
    <SeenOnly class="sheet-frame" pointer-events="none">
      {strips.map((strip) => (
        <rect key={`${strip.x} ${strip.y} ${strip.width}`} class="strip" {...strip} />
      ))}
      <path d={border + marks} />
      {Array.from({ length: across }, (_, i) =>
        [10, height - 4].map((y) => (
          <text key={`${i} ${y}`} x={frameInset + stepX * (i + 0.5)} y={y} text-anchor="middle">
            {i + 1}
          </text>
        )),
      )}
      {Array.from({ length: down }, (_, i) =>
        [7, width - 7].map((x) => (
          <text key={`${i} ${x}`} x={x} y={frameInset + stepY * (i + 0.5) + 3} text-anchor="middle">
            {String.fromCharCode(65 + i)}
          </text>
        )),
      )}
    </SeenOnly>
  );
}
