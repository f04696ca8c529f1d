/** Line numbers beside the text, with the marks of the findings at their lines. */
import type { Finding, Severity } from "../../catalogue/finding.ts";
import { SeverityMark, severities } from "../findings/severity-mark.tsx";

interface Properties {
  readonly lines: number;
  readonly findings: readonly Finding[];
}

export function LineNumbers({ lines, findings }: Properties) {
  const gravest = new Map<number, Severity>();
  for (const severity of severities.toReversed()) {
    for (const { severity: own, place } of findings) if (own === severity && place) gravest.set(place.line, severity);
  }
  return (
    <ol class="line-numbers" aria-hidden="true">
      {Array.from({ length: lines }, (_, index) => {
        const severity = gravest.get(index + 1);
        return (
          <li key={index + 1} class={severity}>
            {severity && <SeverityMark severity={severity} />}
            {index + 1}
          </li>
        );
      })}
    </ol>
  );
}
