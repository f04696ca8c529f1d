/** The remedies of a finding: those with edits are pressed, those for hands are read. */
import type { Finding, Remedy } from "../../catalogue/finding.ts";
import { Words } from "../frame/words.tsx";
import { commitEdits } from "../state/document.ts";
import { notice } from "../state/view.ts";

/** Applies a remedy as one step of the history. */
function apply(rule: string, { says, edits }: Remedy): void {
  const done = commitEdits(`Remedy for ${rule}: ${says}`, edits);
  notice.value = "problem" in done ? `Not applied: ${done.problem}` : `Applied: ${says}`;
}

export function RemedyButtons({ finding }: { readonly finding: Finding }) {
  const { rule, remedies } = finding;
  if (remedies.length === 0) return null;
  return (
    <ul class="remedies" aria-label="Remedies">
      {remedies.map((remedy) => (
        <li key={remedy.says}>
          {remedy.edits.length > 0 ? (
            <button type="button" onClick={() => apply(rule, remedy)}>
              <Words text={remedy.says} />
            </button>
          ) : (
            <span>
              by hand: <Words text={remedy.says} />
            </span>
          )}
        </li>
      ))}
    </ul>
  );
}
