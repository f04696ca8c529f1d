/** A check of one thing that no key says alone. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Coil } from "../coil.ts";

/** `makesNoCoil`: solving it would be meaningless, so the reader gives no coil. */
export interface Checked {
  readonly finding: Finding;
  readonly makesNoCoil: boolean;
}

export type Check = (coil: Coil) => readonly Checked[];

/** An impossibility: severity `stop` where no coil remains, else as given. */
export function found({
  makesNoCoil,
  ...finding
}: Pick<Finding, "rule" | "path" | "what" | "expected"> &
  Partial<Pick<Finding, "severity" | "remedies" | "evidence">> & {
    makesNoCoil: boolean;
  }): Checked {
  return { finding: { severity: makesNoCoil ? "stop" : "fix", remedies: [], evidence: [], ...finding }, makesNoCoil };
}
