/** What `standoff --json` prints: figures by id, findings, and all that stands behind the line. */
import type { Finding } from "../../catalogue/finding.ts";
import type { ChecklistPart, Standoff } from "../../workbench/standoff-contract.ts";
import { checkJson } from "./json.ts";

/** Values in SI; `low` and `high` are the 90 % interval. Without a coil that can be read the shape stays, and there are only findings. */
export function standoffJson({
  findings,
  standoff,
  checklist,
}: {
  findings: readonly Finding[];
  standoff?: Standoff;
  checklist?: readonly ChecklistPart[];
}) {
  const { quantities } = checkJson({ findings });
  if (standoff === undefined) return { quantities, findings };
  const { figures, ...rest } = standoff;
  const entries = [...figures.values()].map(({ id, value, unit, low, high, source, note }) => [
    id,
    {
      value,
      unit,
      ...(low === undefined || high === undefined ? {} : { low, high }),
      source,
      standing: standoff.standing[source],
      ...(note === undefined ? {} : { note }),
    },
  ]);
  return { quantities: Object.fromEntries(entries), findings, ...rest, checklist };
}
