/** Who carries the primary current, as a strip: the upper side above the line, the lower below it; a switch stands tall, a diode half as tall. */
import type { Waveforms } from "../workbench/burst-contract.ts";
import type { Scale } from "./plots.ts";

/** By the number of the branch: its class, whether it stands above the line, and its part of the height there. */
const branches: readonly (undefined | { readonly name: string; readonly above: boolean; readonly tall: number })[] = [
  undefined,
  { name: "upperSwitch", above: true, tall: 1 },
  { name: "upperDiode", above: true, tall: 0.5 },
  { name: "lowerSwitch", above: false, tall: 1 },
  { name: "lowerDiode", above: false, tall: 0.5 },
];

export function conductingStrip({
  waves: { time, conducting },
  x,
  top,
  height,
  left,
  right,
}: {
  waves: Pick<Waveforms, "time" | "conducting">;
  x: Scale;
  top: number;
  height: number;
  left: number;
  right: number;
}): string {
  const middle = top + height / 2;
  const paths = branches.map(() => "");
  let from = 0;
  for (let n = 1; n <= conducting.length; n++) {
    if (n < conducting.length && conducting[n] === conducting[from]) continue;
    const branch = conducting[from] ?? 0;
    const is = branches[branch];
    if (is !== undefined) {
      const [start, end] = [x.toPage(time[from] ?? 0), x.toPage(time[Math.min(n, time.length - 1)] ?? 0)];
      const reach = (is.above ? -1 : 1) * (height / 2) * is.tall;
      paths[branch] +=
        `M${start.toFixed(1)} ${middle.toFixed(1)}v${reach.toFixed(1)}H${end.toFixed(1)}v${(-reach).toFixed(1)}z`;
    }
    from = n;
  }
  return [
    ...branches.flatMap((is, branch) =>
      is === undefined || paths[branch] === "" ? [] : [`<path class="${is.name}" d="${paths[branch]}"/>`],
    ),
    `<path class="axis" d="M${left} ${middle.toFixed(1)}H${right}"/>`,
    `<text x="${right + 8}" y="${(middle - 1).toFixed(1)}">who conducts: tall a</text>`,
    `<text x="${right + 8}" y="${(middle + 12).toFixed(1)}">switch, low a diode</text>`,
  ].join("\n");
}
