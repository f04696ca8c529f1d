/** A teaching picture: what is drawn at each moment, as plain marks on a stage of 1600 by 900. */

/** Colours by meaning; each theme has its own. */
export type Tone = "ink" | "soft" | "hair" | "wash" | "electric" | "magnetic" | "copper" | "warn";

export type Mark =
  | {
      readonly kind: "line";
      readonly points: readonly Point[];
      readonly tone: Tone;
      readonly width?: number;
      readonly dashed?: boolean;
    }
  | { readonly kind: "area"; readonly points: readonly Point[]; readonly tone: Tone; readonly opacity?: number }
  | {
      readonly kind: "dot";
      readonly at: Point;
      readonly radius: number;
      readonly tone: Tone;
      readonly hollow?: boolean;
    }
  | {
      readonly kind: "text";
      readonly at: Point;
      readonly text: string;
      readonly tone: Tone;
      readonly size?: number;
      readonly anchor?: "start" | "middle" | "end";
    };

export type Point = readonly [x: number, y: number];

/** Width and height of the stage; y runs down. */
export const stage = { width: 1600, height: 900 };

export interface Picture {
  readonly id: string;
  readonly title: string;
  /** What the picture says, with this coil's own numbers; one sentence each. */
  readonly caption: readonly string[];
  /** How long one round takes on the screen [s]. */
  readonly round: number;
  /** The phase, 0 to 1, that says most when nothing moves. */
  readonly still: number;
  /** What changes; title and caption are set by whoever shows it. */
  readonly at: (phase: number) => readonly Mark[];
}
