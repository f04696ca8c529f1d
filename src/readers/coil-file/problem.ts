/** How the reader makes a finding: always placed, always `stop`, for a file that cannot be read as it stands. */
import type { Finding, Place, Remedy } from "../../catalogue/finding.ts";

export function problem({
  rule,
  path,
  place,
  what,
  expected,
  remedies = [],
}: {
  rule: string;
  path: string;
  place: Place;
  what: string;
  expected?: string;
  remedies?: readonly Remedy[];
}): Finding {
  return {
    rule,
    severity: "stop",
    path,
    place: { ...place, path },
    what,
    evidence: [],
    remedies,
    ...(expected === undefined ? {} : { expected }),
  };
}
