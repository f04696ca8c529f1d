/** What the bridge drives: sense, tank capacitor, primary, and beside it the secondary with its top load and streamer. */
import type { Coil } from "../description/coil.ts";
import type { Strokes } from "./schematic-data.ts";
import { column, rail } from "./schematic-grid.ts";
import { capacitorAlong, earth, windingAlong, windingDown } from "./schematic-symbols.ts";
import { label, notInFile, valueText } from "./schematic-text.ts";

const primaryTop = 290;
const primaryTurns = 5;
const primaryRadius = 12;
const primaryEnd = primaryTop + 2 * primaryRadius * primaryTurns;
const secondaryTop = 150;
const secondaryTurns = 17;
const secondaryRadius = 8;
const secondaryEnd = secondaryTop + 2 * secondaryRadius * secondaryTurns;
const top = 96;
/** Height of a sense that reads the foot of the winding. */
export const footSense = secondaryEnd + 26;

export function loadStrokes({ tank, primary, secondary, topload, feedback }: Coil): Strokes {
  const { firstLeg, sense: xs, tank: xt, primary: xp, secondary: xw } = column;
  const bank = tank?.bank;
  const isSecondarySense = feedback?.sense === "secondaryCurrent";
  const onFixed = typeof feedback?.sense === "object";
  // the sense winding rides on the conductor whose current it reads
  const sensed = isSecondarySense ? { x: xw - 16, y: footSense } : { x: xs - 16, y: rail.middle - 4 };
  return {
    wires: [
      `M${firstLeg} ${rail.middle}H${xt - 4}M${xt + 4} ${rail.middle}H${xp}V${primaryTop}M${xp} ${primaryEnd}V${rail.back}`,
      `M${xw} ${secondaryTop}V${top + 14}M${xw} ${secondaryEnd}V${secondaryEnd + 42}`,
    ],
    symbols: [
      { part: "tank", path: capacitorAlong({ x: xt, y: rail.middle }) },
      {
        part: "primary",
        path: windingDown({ x: xp, y: primaryTop, turns: primaryTurns, radius: primaryRadius, bulge: "right" }),
      },
      {
        part: "secondary",
        path: windingDown({ x: xw, y: secondaryTop, turns: secondaryTurns, radius: secondaryRadius, bulge: "right" }),
      },
      { part: "secondary", path: earth({ x: xw, y: secondaryEnd + 34 }) },
      { part: "secondary", path: `M${xw - 34} ${top}a14 14 0 0 1 14 -14h40a14 14 0 0 1 0 28h-40a14 14 0 0 1 -14 -14Z` },
      { part: "streamer", path: `M${xw + 36} ${top}l18 -12l-6 14l22 -8l-8 15l26 -4M${xw + 80} ${top + 9}l8 -4l-6 -6` },
      ...(onFixed ? [] : [{ part: "sense" as const, path: windingAlong({ ...sensed, turns: 4, radius: 4 }) }]),
    ],
    dots: [],
    texts: [
      ...(onFixed
        ? []
        : label(
            isSecondarySense ? { x: xw + 24, y: footSense - 22 } : { x: xs, y: rail.middle - 34 },
            "sense",
            ["sense", feedback?.transformer ? `1 : ${feedback.transformer.ratio}` : notInFile],
            isSecondarySense ? "start" : "middle",
          )),
      ...label({ x: xt, y: rail.middle - 84 }, "tank", [
        "tank capacitor",
        bank ? valueText((bank.each * bank.parallel) / bank.series, "F") : notInFile,
        bank && `${bank.series} × ${bank.parallel} of ${valueText(bank.each, "F")}`,
      ]),
      ...label(
        { x: xp - 12, y: primaryTop + 40 },
        "primary",
        ["primary", primary ? `${primary.tap} turns` : notInFile],
        "end",
      ),
      ...label(
        { x: xw + 18, y: secondaryTop + 96 },
        "secondary",
        ["secondary", `${secondary.turns} turns`, topload.length === 0 ? "no top load" : undefined],
        "start",
      ),
      ...label({ x: xw + 40, y: top - 34 }, "streamer", ["streamer"], "start"),
    ],
    boxes: [
      ...(onFixed
        ? []
        : [
            isSecondarySense
              ? {
                  part: "sense" as const,
                  name: "sense transformer",
                  x: xw - 26,
                  y: footSense - 34,
                  width: 104,
                  height: 44,
                  inFile: feedback?.transformer !== undefined,
                }
              : {
                  part: "sense" as const,
                  name: "sense transformer",
                  x: xs - 30,
                  y: rail.middle - 48,
                  width: 60,
                  height: 62,
                  inFile: feedback?.transformer !== undefined,
                },
          ]),
      {
        part: "tank",
        name: "tank capacitor",
        x: xt - 34,
        y: rail.middle - 30,
        width: 68,
        height: 60,
        inFile: tank !== undefined,
      },
      {
        part: "primary",
        name: "primary",
        x: xp - 78,
        y: primaryTop - 8,
        width: 94,
        height: primaryEnd - primaryTop + 16,
        inFile: primary !== undefined,
      },
      {
        part: "secondary",
        name: "secondary and top load",
        x: xw - 18,
        y: top + 18,
        width: 100,
        height: secondaryEnd - top - 18,
        inFile: true,
      },
      { part: "streamer", name: "streamer", x: xw + 34, y: top - 50, width: 82, height: 68, inFile: true },
    ],
  };
}

/** The primary as the current passes it, and where its bulges end. */
export const primarySpan = { top: primaryTop, end: primaryEnd } as const;
