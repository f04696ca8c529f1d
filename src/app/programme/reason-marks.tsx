/** A shape for each reason why a pulse is not as it was wanted: open where it is shorter, filled where it is left out. */
import type { Reason } from "../../workbench/programme-outputs.ts";

/** In a box of 10 × 10. */
export const markPaths: Readonly<Record<Reason, string>> = {
  none: "M2 5H8",
  collision: "M1 1L5 4L9 1L6 5L9 9L5 6L1 9L4 5Z",
  onTime: "M1 1H9V4H6V9H4V4H1Z",
  gap: "M1 1H3.6V9H1ZM6.4 1H9V9H6.4Z",
  rate: "M5 1A4 4 0 0 1 5 9A4 4 0 0 1 5 1Z",
  duty: "M1 1H9V9H1Z",
  power: "M6 0.5L1.5 5.8H4.6L3.6 9.5L8.5 4H5.2Z",
  junction: "M5 0.8L9.4 9H0.6Z",
  capacitor: "M3 1H7L9.4 5L7 9H3L0.6 5Z",
  bus: "M0.6 1H9.4L5 9.2Z",
  muted: "M1 3.6H9V6.4H1Z",
};

/** The two ways in which a pulse is told to be another than wanted. */
export type MarkKind = "trimmed" | "dropped";

export function ReasonMark({ reason, kind }: { readonly reason: Reason; readonly kind: MarkKind }) {
  return (
    <svg class={`reason-mark ${kind}`} width="14" height="14" viewBox="-1 -1 12 12" aria-hidden="true">
      <path d={markPaths[reason]} />
    </svg>
  );
}
