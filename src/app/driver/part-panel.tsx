/** What is known of the chosen part: limits with words, figures with why, findings. */
import type { Figures } from "../../catalogue/figure.ts";
import type { Finding } from "../../catalogue/finding.ts";
import type { PartBox } from "../../views/schematic-data.ts";
import {
  figureName,
  limitWords,
  partOfFigure,
  partOfFinding,
  type Stress,
  stressWord,
} from "../../views/schematic-stress.ts";
import { SeverityMark } from "../findings/severity-mark.tsx";
import { Words } from "../frame/words.tsx";
import { shownParts } from "../ledger/ledger-rows.ts";
import { asked } from "../state/view.ts";

interface Properties {
  readonly box: PartBox;
  readonly stresses: readonly Stress[];
  readonly figures: Figures;
  readonly findings: readonly Finding[];
}

export function PartPanel({ box, stresses, figures, findings }: Properties) {
  const { part, name, inFile } = box;
  const mine = [...figures.values()].filter(({ id }) => partOfFigure(id) === part);
  const found = findings.filter((finding) => partOfFinding(finding) === part);
  return (
    <section class="part-panel" aria-labelledby="part-title" aria-live="polite">
      <h2 id="part-title">{name[0]?.toUpperCase() + name.slice(1)}</h2>
      {!inFile && <p class="small">not in the file</p>}
      {stresses
        .filter((stress) => stress.part === part)
        .map((stress) => (
          <p key={stress.says} class="stress-line" data-stress={stressWord(stress)}>
            <span>
              <b>{`${Math.round(stress.share * 100)} %, ${limitWords(stress)}`}</b>: {stress.says}
            </span>
            <span class="number">{stress.text}</span>
          </p>
        ))}
      {mine.length === 0 && found.length === 0 && <p class="small">No figure and no finding stands at this part.</p>}
      <ul class="part-figures">
        {mine.map((figure) => {
          const { number, unit } = shownParts(figure);
          return (
            <li key={figure.id}>
              <button
                type="button"
                class="quiet"
                aria-label={`Why ${figureName(figure.id)}?`}
                onClick={() => {
                  asked.value = figure.id;
                }}
              >
                {figureName(figure.id)}
              </button>
              <span class="number">
                {number} {unit}
              </span>
            </li>
          );
        })}
      </ul>
      <ul class="part-findings">
        {found.map(({ rule, severity, path, what }) => (
          <li key={`${rule} ${path} ${what}`} class={`finding ${severity}`}>
            <p class="what">
              <SeverityMark severity={severity} />
              <strong>{severity}</strong>
              <span>
                <Words text={what} />
              </span>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
