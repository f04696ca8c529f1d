/** The switches: one leg and the midpoint of the bus, or two legs. */
import type { Coil } from "../description/coil.ts";
import type { SchematicText, Strokes } from "./schematic-data.ts";
import { column, diodeBeside, level, rail } from "./schematic-grid.ts";
import { diodeUp, igbt, mosfet } from "./schematic-symbols.ts";
import { label, notInFile, pin, valueText } from "./schematic-text.ts";

const heights = [level.upper, level.lower];

/** Leads of a leg: from rail to rail through both switches, and around each through its diode. */
const legWires = (x: number) => [
  `M${x} ${rail.plus}V${level.upper - 32}M${x} ${level.upper + 32}V${level.lower - 32}M${x} ${level.lower + 32}V${rail.minus}`,
  ...heights.map((y) => {
    const beside = x + diodeBeside;
    return `M${x} ${y - 36}H${beside}V${y - 9}M${x} ${y + 36}H${beside}V${y + 9}`;
  }),
];

export function bridgeStrokes({ bridge }: Coil): Strokes {
  const isFull = bridge?.kind === "full";
  const { firstLeg, secondLeg, back, bleeder } = column;
  const legs = isFull ? [secondLeg, firstLeg] : [firstLeg];
  const draw = bridge?.switch.kind === "mosfet" ? mosfet : igbt;
  const gates: readonly SchematicText[] = legs.flatMap((x) =>
    heights.map((y, n) => pin({ x: x - 48, y: y + 4 }, gateName(x === firstLeg, n === 0), "end")),
  );
  const from = isFull ? secondLeg : bleeder;
  return {
    wires: [...legs.flatMap(legWires), `M${from} ${rail.middle}H${back}V${rail.back}H${column.primary}`],
    symbols: legs.flatMap((x) =>
      heights.flatMap((y) => [
        { part: "switches" as const, path: draw({ x, y }) },
        { part: "switches" as const, path: diodeUp({ x: x + diodeBeside, y }) },
      ]),
    ),
    dots: legs.flatMap((x) => [
      { x, y: rail.middle },
      ...(x === secondLeg
        ? [
            { x, y: rail.plus },
            { x, y: rail.minus },
          ]
        : []),
      ...heights.flatMap((y) => [
        { x, y: y - 36 },
        { x, y: y + 36 },
      ]),
    ]),
    texts: [
      ...gates,
      ...label({ x: firstLeg, y: rail.plus - 40 }, "switches", [
        `${isFull ? "full" : "half"} bridge`,
        bridge
          ? `${legs.length * 2} × ${valueText(bridge.switch.voltage, "V")}, ${valueText(bridge.switch.current, "A")}, ${valueText(bridge.switch.pulse, "A")} pulse`
          : notInFile,
      ]),
    ],
    boxes: [
      {
        part: "switches",
        name: isFull ? "switches, full bridge" : "switches, half bridge",
        x: (isFull ? secondLeg : firstLeg) - 72,
        y: rail.plus + 24,
        width: (isFull ? firstLeg - secondLeg : 0) + 72 + diodeBeside + 14,
        height: rail.minus - rail.plus - 48,
        gauge: { x: (isFull ? secondLeg : firstLeg) - 46, y: rail.middle },
        inFile: bridge !== undefined,
      },
    ],
  };
}

/** In a full bridge the diagonal that drives the current to the right is one pair. */
const gateName = (isFirst: boolean, isUpper: boolean) => (isFirst === isUpper ? "G1" : "G2");
