/** Words of the diagram: names over values, as the file has them. */
import { formatQuantity } from "../units/format.ts";
import type { SchematicPart, SchematicText } from "./schematic-data.ts";
import type { At } from "./schematic-symbols.ts";

/** A value in as few digits as it has. */
export const valueText = (value: number, unit: string) => formatQuantity(value, unit, { digits: 4, trim: true });

/** A capacitor of a supply as the trade marks it: in µF however large. */
export const reservoirText = (farad: number) => `${Number((farad * 1e6).toPrecision(4))} µF`;

const step = 14;

/** A name with its values below it. */
export function label(
  { x, y }: At,
  part: SchematicPart,
  [name, ...values]: readonly (string | undefined)[],
  anchor: SchematicText["anchor"] = "middle",
): SchematicText[] {
  const rows = values.filter((value) => value !== undefined);
  return [
    { x, y, text: name ?? "", anchor, role: "name", part },
    ...rows.map((text, n): SchematicText => ({ x, y: y + step * (n + 1), text, anchor, role: "value", part })),
  ];
}

export const pin = ({ x, y }: At, text: string, anchor: SchematicText["anchor"] = "middle"): SchematicText => ({
  x,
  y,
  text,
  anchor,
  role: "pin",
});

/** Said in place of the values of a part that the file does not have. */
export const notInFile = "not in file";
