/** How deep a current goes in copper and in muscle: why the skin effect does not protect a body. */
import { skinDepth, tissueAt } from "../../safety/tissue.ts";
import { formatQuantity } from "../../units/format.ts";
import { type Box, frame, line, text } from "./marks.ts";
import type { Mark, Picture, Point, Tone } from "./picture.ts";

/**
 * Depth at which a plane wave's field has fallen to 1/e: √(2ρ/ωµ) in copper, from four-term Cole-Cole data in muscle.
 * @source skin-depth, tissue data as `src/safety/tissue.ts` names it
 */
export function skinDepthPicture({ frequency, wire }: { frequency: number; wire: number }): Picture {
  const copper = skinDepth(frequency);
  const muscle = tissueAt("muscle", frequency).penetrationDepth;
  const lowest = 1e3;
  const highest = 1e7;
  const swept = (phase: number) => lowest * (highest / lowest) ** (0.5 - 0.5 * Math.cos(2 * Math.PI * phase));
  const own = Math.acos(1 - (2 * Math.log(frequency / lowest)) / Math.log(highest / lowest)) / (2 * Math.PI);
  return {
    id: "skin-depth",
    title: "The skin effect does not protect",
    caption: [
      `At this coil's ${formatQuantity(frequency, "Hz")} current goes ${formatQuantity(copper, "m", { digits: 2 })} deep in copper and ${formatQuantity(muscle, "m", { digits: 2, lengths: "m" })} deep in muscle.`,
      `The winding's wire is ${formatQuantity(wire, "m", { digits: 3 })} thick, a limb under 0.1 m: the wire may carry its current in a shell, the limb is filled by it.`,
      "What changes with frequency is what nerves notice and where it heats, not whether it goes through. Warning may fail before a burn does.",
    ],
    round: 14,
    still: Number.isFinite(own) ? own : 0.25,
    at: (phase) => {
      const now = swept(phase);
      const inCopper = skinDepth(now);
      const inMuscle = tissueAt("muscle", now).penetrationDepth;
      return [
        text([800, 190], formatQuantity(now, "Hz", { digits: 2 }), { size: 44, anchor: "middle" }),
        ...slab({ left: 100, top: 280, width: 620, height: 260 }, "copper wire, cut across", "copper", wire, inCopper),
        ...slab({ left: 880, top: 280, width: 620, height: 260 }, "a limb, cut across", "warn", 0.1, inMuscle),
        ...frequencyLine(lowest, highest, now, frequency),
      ];
    },
  };
}

/** Current density over the thickness, from both faces: cosh(x/δ) over cosh(d/2δ), the flat sheet of the same thickness. */
function slab(box: Box, name: string, tone: Tone, thickness: number, depth: number): Mark[] {
  const steps = 120;
  const half = thickness / (2 * depth);
  const density = (x: number) =>
    Math.exp(half * (Math.abs(x) - 1)) * ((1 + Math.exp(-2 * half * Math.abs(x))) / (1 + Math.exp(-2 * half)));
  const points = Array.from({ length: steps + 1 }, (_, step): Point => {
    const x = (2 * step) / steps - 1;
    return [box.left + (step / steps) * box.width, box.top + box.height * (1 - 0.9 * density(x))];
  });
  const foot = box.top + box.height;
  return [
    frame(box),
    { kind: "area", tone, opacity: 0.35, points: [[box.left, foot], ...points, [box.left + box.width, foot]] },
    line(tone, points, 4),
    text([box.left, box.top - 20], name),
    text([box.left + box.width, box.top - 20], `${formatQuantity(thickness, "m", { digits: 3 })} thick`, {
      anchor: "end",
      tone: "soft",
    }),
    text(
      [box.left, foot + 44],
      `depth ${formatQuantity(depth, "m", { digits: 2, lengths: depth > 0.1 ? "m" : "mm" })}`,
    ),
    text([box.left + box.width, foot + 44], "current density, face to face", { anchor: "end", tone: "soft", size: 24 }),
  ];
}

function frequencyLine(lowest: number, highest: number, now: number, own: number): Mark[] {
  const x = (frequency: number) => 200 + (1200 * Math.log(frequency / lowest)) / Math.log(highest / lowest);
  const y = 690;
  const ticks = [1e3, 1e4, 1e5, 1e6, 1e7].flatMap((frequency): Mark[] => [
    line(
      "soft",
      [
        [x(frequency), y - 8],
        [x(frequency), y + 8],
      ],
      2,
    ),
    text([x(frequency), y + 40], formatQuantity(frequency, "Hz", { digits: 1, trim: true }), {
      size: 22,
      tone: "soft",
      anchor: "middle",
    }),
  ]);
  return [
    line(
      "soft",
      [
        [200, y],
        [1400, y],
      ],
      3,
    ),
    ...ticks,
    line(
      "electric",
      [
        [x(own), y - 26],
        [x(own), y],
      ],
      4,
    ),
    text([x(own), y - 34], "this coil", { size: 22, tone: "electric", anchor: "middle" }),
    { kind: "dot", at: [x(now), y], radius: 12, tone: "ink" },
  ];
}
