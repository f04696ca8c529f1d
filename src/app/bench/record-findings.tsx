/** What is wrong with a record, or with the fit: in words, with what to do. */
import type { Finding } from "../../catalogue/finding.ts";
import { SeverityMark } from "../findings/severity-mark.tsx";
import { Words } from "../frame/words.tsx";

export function RecordFindings({ findings }: { readonly findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <ul class="record-findings">
      {findings.map(({ rule, severity, what, expected, remedies, place }) => (
        <li key={`${rule} ${what}`} class={`finding ${severity}`} data-rule={rule}>
          <p class="what">
            <SeverityMark severity={severity} />
            <strong>{severity}</strong>
            <span>
              {place !== undefined && `line ${place.line}, column ${place.column}: `}
              <Words text={what} />
            </span>
          </p>
          {expected !== undefined && (
            <p class="where expected">
              expected: <Words text={expected} />
            </p>
          )}
          {remedies.map(({ says }) => (
            <p key={says} class="where">
              <Words text={says} />
            </p>
          ))}
        </li>
      ))}
    </ul>
  );
}
