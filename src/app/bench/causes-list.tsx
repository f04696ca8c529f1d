/** What the comparison comes to, what may explain a difference, and what these records cannot tell. */
import { matchHeadline, supportText, worthLooking } from "../../views/match-words.ts";
import type { Match } from "../../workbench/match-contract.ts";
import { RecordFindings } from "./record-findings.tsx";

export function CausesList({ match }: { readonly match: Match }) {
  const causes = worthLooking(match.explanations);
  const most = Math.max(1, ...causes.map(({ support }) => support));
  return (
    <section class="causes" aria-labelledby="causes-title">
      <h2 id="causes-title">{matchHeadline(match)}</h2>
      <RecordFindings findings={match.findings} />
      {causes.length > 0 && (
        <>
          <h3>what may explain it, most supported first</h3>
          <ol>
            {causes.map((cause) => (
              <li key={cause.id} data-cause={cause.id}>
                <p>
                  <strong>{cause.says}</strong> <span class="small">{supportText(cause)}</span>
                </p>
                <span class="support" style={{ width: `${(100 * cause.support) / most}%` }} aria-hidden="true" />
                <p class="small">{`look: ${cause.check}`}</p>
              </li>
            ))}
          </ol>
          <p class="small">
            The number is twice the logarithm of how much more probable the records are with the cause than without: 6
            is twenty to one.
          </p>
        </>
      )}
    </section>
  );
}
