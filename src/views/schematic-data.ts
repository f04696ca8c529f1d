/** What a circuit diagram is made of: strokes, words, and the parts that can be pressed. */
import type { At } from "./schematic-symbols.ts";

export type SchematicPart =
  | "mains"
  | "fuse"
  | "inrush"
  | "rectifier"
  | "capacitors"
  | "bleeder"
  | "switches"
  | "sense"
  | "tank"
  | "primary"
  | "secondary"
  | "streamer"
  | "control"
  | "driver"
  | "gate";

export interface SchematicText extends At {
  readonly text: string;
  readonly anchor: "start" | "middle" | "end";
  /** `name` of a part, `value` from the file, `pin` beside a symbol. */
  readonly role: "name" | "value" | "pin";
  readonly part?: SchematicPart;
}

export interface Stroke {
  readonly part?: SchematicPart;
  /** SVG path. */
  readonly path: string;
}

/** A part that can be pressed: what it is and the page that it takes. */
export interface PartBox extends At {
  readonly part: SchematicPart;
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** Middle of the bar that tells its stress; below its page where absent. */
  readonly gauge?: At;
  /** False where the file does not have it: it is drawn all the same, in dashes. */
  readonly inFile: boolean;
}

export interface Strokes {
  readonly wires: readonly string[];
  readonly symbols: readonly Stroke[];
  readonly dots: readonly At[];
  readonly texts: readonly SchematicText[];
  readonly boxes: readonly PartBox[];
}
