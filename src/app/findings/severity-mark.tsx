/** Severity by shape and word: octagon stop, triangle fix, circle look. */
import type { Severity } from "../../catalogue/finding.ts";

const shapes: Readonly<Record<Severity, string>> = {
  stop: "M6 1H14L19 6V14L14 19H6L1 14V6Z",
  fix: "M10 1L19.5 18.5H0.5Z",
  look: "M10 1A9 9 0 0 1 10 19A9 9 0 0 1 10 1Z",
};

export const severities: readonly Severity[] = ["stop", "fix", "look"];

export const severitySays: Readonly<Record<Severity, string>> = {
  stop: "do not switch on",
  fix: "will not work or not last",
  look: "worth a second look",
};

export function SeverityMark({ severity }: { readonly severity: Severity }) {
  return (
    <svg class={`severity ${severity}`} width="20" height="20" aria-hidden="true">
      <path d={shapes[severity]} />
    </svg>
  );
}
