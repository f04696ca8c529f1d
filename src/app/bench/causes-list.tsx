/** What the comparison comes to, and what may explain a difference. */
import { matchHeadline, rivalsText, supportText, worthLooking } from "../../views/match-words.ts";
import type { Match } from "../../workbench/match-contract.ts";
import { RecordFindings } from "./record-findings.tsx";

export function CausesList({ match }: { readonly match: Match }) {
  const causes = worthLooking(match.explanations);
  const most = Math.max(1, ...causes.map(({ support }) => support));
  return (
    causes.length > 0 && (
      <section class="causes" aria-labelledby="causes-title">
        <h2 id="causes-title">What may explain it, most supported first</h2>
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
        {match.rivals.map((rivals) => (
          <p key={rivals.between.join()}>{rivalsText(rivals)}</p>
        ))}
        <p class="small">
          The number is twice the logarithm of how much more probable the records are with the cause than without: 6 is
          twenty to one.
        </p>
      </section>
    )
  );
}

/** Does it agree? In one sentence, with what is wrong with the fit. */
export function Verdict({ match }: { readonly match: Match }) {
  return (
    <section class="verdict" aria-label="What the comparison comes to">
      <p>{matchHeadline(match)}</p>
      <RecordFindings findings={match.findings} />
    </section>
  );
}
