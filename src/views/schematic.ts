/** The driver of a coil as a circuit diagram: plain data on a page of its own units, by the coil's own kind of bridge, rectifier and sense. */
import type { Coil } from "../description/coil.ts";
import { bridgeStrokes } from "./schematic-bridge.ts";
import type { Strokes } from "./schematic-data.ts";
import { driveStrokes } from "./schematic-drive.ts";
import { loadStrokes } from "./schematic-load.ts";
import { supplyStrokes } from "./schematic-supply.ts";

export interface Schematic extends Strokes {
  readonly width: number;
  /** From `top` on. */
  readonly height: number;
  readonly top: number;
}

/**
 * Lays out the diagram of a coil's driver.
 *
 * The bus is drawn as the burst reckons with it: two capacitors in series, whose midpoint is the return of a half bridge. Sections that the file
 * does not have are drawn as the rest of the file would have them, marked as not in the file.
 */
export function schematic(coil: Coil): Schematic {
  const parts = [supplyStrokes(coil), bridgeStrokes(coil), loadStrokes(coil), driveStrokes(coil)];
  return {
    width: 1200,
    height: 592,
    top: 44,
    wires: parts.flatMap(({ wires }) => wires),
    symbols: parts.flatMap(({ symbols }) => symbols),
    dots: parts.flatMap(({ dots }) => dots),
    texts: parts.flatMap(({ texts }) => texts),
    boxes: parts.flatMap(({ boxes }) => boxes),
  };
}
