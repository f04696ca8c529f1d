/** Everything that can be done by a button, a menu or a key, registered once. */
export interface Gesture {
  readonly id: string;
  readonly label: string;
  /** As `KeyboardEvent.key` with `Control+` and `Shift+` before it; the command key counts as control. */
  readonly keys: readonly string[];
  /** `step`: makes one step of the history. `none`: changes no text. `walks`: moves along the history. */
  readonly undo: "step" | "none" | "walks";
  readonly enabled?: () => boolean;
  /** What it would do just now, where that says more than the label. */
  readonly detail?: () => string | undefined;
  readonly run: () => void;
}
