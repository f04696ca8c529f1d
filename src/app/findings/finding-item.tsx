/** One finding: what, where, what was expected, what it stands on, what can be done. */
import type { Finding } from "../../catalogue/finding.ts";
import { quantities } from "../../catalogue/quantities.ts";
import { shownFigure } from "../burst/burst-state.ts";
import { Words } from "../frame/words.tsx";
import { shownParts } from "../ledger/ledger-rows.ts";
import { asked } from "../state/view.ts";
import { jumpTo, placeWords } from "./jump.ts";
import { RemedyButtons } from "./remedy-buttons.tsx";
import { SeverityMark } from "./severity-mark.tsx";

function Evidence({ id }: { readonly id: string }) {
  const figure = shownFigure(id);
  if (figure === undefined) {
    return (
      <button type="button" class="quiet" onClick={() => jumpTo(id)}>
        {id}
      </button>
    );
  }
  const { number, unit } = shownParts(figure);
  return (
    <button
      type="button"
      class="quiet"
      onClick={() => {
        asked.value = id;
      }}
    >
      {`${quantities.get(id)?.group ?? ""} ${quantities.get(id)?.name ?? id} ${number} ${unit}`.trim()}
    </button>
  );
}

export function FindingItem({ finding }: { readonly finding: Finding }) {
  const { rule, severity, what, expected, evidence, path, place } = finding;
  return (
    <li class={`finding ${severity}`} data-rule={rule}>
      <p class="what">
        <SeverityMark severity={severity} />
        <strong>{severity}</strong>
        <span>
          <Words text={what} />
        </span>
      </p>
      <p class="where">
        <button type="button" class="quiet" onClick={() => jumpTo(path, place?.line)}>
          {placeWords(finding)}
        </button>
        {expected !== undefined && (
          <span class="expected">
            expected: <Words text={expected} />
          </span>
        )}
      </p>
      {evidence.length > 0 && (
        <p class="evidence">
          <span>stands on</span>
          {evidence.map((id) => (
            <Evidence key={id} id={id} />
          ))}
        </p>
      )}
      <RemedyButtons finding={finding} />
    </li>
  );
}
