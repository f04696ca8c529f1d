/** What tells the switches when: control supply, driver, gate transformer, and the line from the sense. */
import type { Coil } from "../description/coil.ts";
import type { Strokes } from "./schematic-data.ts";
import { column, drive, rail } from "./schematic-grid.ts";
import { footSense } from "./schematic-load.ts";
import { block, windingDown } from "./schematic-symbols.ts";
import { label, notInFile, pin, reservoirText, valueText } from "./schematic-text.ts";

const control = { x: 150, width: 236 };
const driver = { x: 732, width: 124 };
const gateAt = 636;

export function driveStrokes({ supply, bridge, feedback }: Coil): Strokes {
  const { top, middle, bottom } = drive;
  const rails = supply?.control;
  const gate = bridge?.gate;
  const transformer = gate?.transformer;
  const fixed = typeof feedback?.sense === "object" ? feedback.sense.fixedFrequency : undefined;
  const onSecondary = feedback?.sense === "secondaryCurrent";
  const coil = (x: number, bulge: "left" | "right") => windingDown({ x, y: middle - 24, turns: 4, radius: 6, bulge });
  const inlet = driver.x + driver.width;
  const senseLine = onSecondary
    ? `M${column.secondary + 16} ${footSense}H${column.secondary + 112}V${middle}H${inlet}`
    : `M${column.sense} ${rail.middle + 4}V${middle}H${inlet}`;
  // without a transformer the driver's outputs go straight on
  const through = bridge !== undefined && transformer === undefined;
  return {
    wires: [
      `M${control.x + control.width} ${bottom - 12}H${driver.x}`,
      `M${driver.x} ${middle - 24}H${gateAt + 12}M${driver.x} ${middle + 24}H${gateAt + 12}`,
      `M${gateAt - 12} ${middle - 24}H${gateAt - 46}M${gateAt - 12} ${middle + 24}H${gateAt - 46}`,
      ...(fixed === undefined ? [senseLine] : []),
      ...(through
        ? [`M${gateAt - 12} ${middle - 24}H${gateAt + 12}M${gateAt - 12} ${middle + 24}H${gateAt + 12}`]
        : []),
    ],
    symbols: [
      { part: "control", path: block({ x: control.x, y: top, width: control.width, height: bottom - top }) },
      { part: "driver", path: block({ x: driver.x, y: top, width: driver.width, height: bottom - top }) },
      ...(through
        ? []
        : [
            {
              part: "gate" as const,
              path: `${coil(gateAt + 12, "left")}${coil(gateAt - 12, "right")}M${gateAt} ${middle - 26}v52`,
            },
          ]),
    ],
    dots: [],
    texts: [
      pin({ x: gateAt - 50, y: middle - 20 }, "G1", "end"),
      pin({ x: gateAt - 50, y: middle + 28 }, "G2", "end"),
      ...label({ x: control.x + control.width / 2, y: top + 20 }, "control", [
        "control supply",
        rails ? `${valueText(rails.transformer, "V")}, ${valueText(rails.current, "A")}` : notInFile,
        rails &&
          `rails ${rails.rails
            .slice(0, 3)
            .map(({ volts }) => valueText(volts, "V"))
            .join(", ")}${rails.rails.length > 3 ? " …" : ""}`,
        rails && `reservoir ${reservoirText(rails.reservoir)}`,
      ]),
      ...label({ x: driver.x + driver.width / 2, y: top + 20 }, "driver", [
        "driver",
        ...(fixed !== undefined
          ? ["fixed frequency", valueText(fixed, "Hz")]
          : feedback
            ? [
                `delay ${valueText(feedback.delay, "s")}`,
                `lead ${valueText(feedback.lead, "s")}`,
                feedback.overcurrent === undefined ? "no trip" : `trip ${valueText(feedback.overcurrent, "A")}`,
              ]
            : [notInFile]),
      ]),
      ...label(
        { x: gateAt, y: top - 26 },
        "gate",
        [
          "gate drive",
          gate ? `${valueText(gate.drive, "V")}, ${valueText(gate.resistor, "Ω")}` : notInFile,
          transformer ? `${transformer.turns} turns` : "no transformer",
        ],
        "middle",
      ),
    ],
    boxes: [
      {
        part: "control",
        name: "control supply",
        x: control.x,
        y: top,
        width: control.width,
        height: bottom - top,
        inFile: rails !== undefined,
      },
      {
        part: "driver",
        name: "driver and trip",
        x: driver.x,
        y: top,
        width: driver.width,
        height: bottom - top,
        inFile: feedback !== undefined,
      },
      {
        part: "gate",
        name: "gate drive",
        x: gateAt - 150,
        y: middle - 36,
        width: 180,
        height: 66,
        gauge: { x: gateAt - 112, y: middle },
        inFile: bridge !== undefined,
      },
    ],
  };
}
