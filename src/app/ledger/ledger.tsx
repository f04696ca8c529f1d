/** Every figure with its value, its interval and where it comes from. */
import { useMemo } from "preact/hooks";
import type { Figures } from "../../catalogue/figure.ts";
import type { Doubts } from "../../workbench/doubts.ts";
import { behind, doubts, solution, study } from "../state/answers.ts";
import { drawable } from "../state/document.ts";
import { asked } from "../state/view.ts";
import { LedgerLine } from "./ledger-line.tsx";
import { ledgerGroups } from "./ledger-rows.ts";
import { OriginKey } from "./origin-key.tsx";

interface Properties {
  /** Names of the groups to show; all where absent. */
  readonly only?: readonly string[];
  /** Shown in place of the solution's own. */
  readonly figures?: Figures | undefined;
  /** Intervals in place of those of the coil at rest. */
  readonly intervals?: Doubts | undefined;
}

export function Ledger({ only, figures, intervals }: Properties) {
  const solved = solution.value;
  const found = useMemo(() => (solved && figures ? { ...solved, figures } : solved), [solved, figures]);
  const provenances = drawable.value?.file.provenances;
  const sure = intervals ?? doubts.value;
  const last = intervals ?? study.value?.doubts;
  const groups = useMemo(
    () =>
      found && provenances
        ? ledgerGroups({ solution: found, provenances, doubts: sure, lastDoubts: last }).filter(
            ({ name }) => only?.includes(name) ?? true,
          )
        : [],
    [found, provenances, sure, last, only],
  );
  return (
    <section class="ledger" aria-labelledby="ledger-title" data-behind={behind.value || undefined}>
      <header>
        <h2 id="ledger-title">Ledger</h2>
        <OriginKey />
        {found && sure === undefined && <p class="working">intervals are being worked out</p>}
      </header>
      {groups.length === 0 && <p class="empty">Figures appear here when the coil has been solved.</p>}
      {groups.map(({ name, rows }) => (
        <section key={name} aria-label={name}>
          <h3>{name}</h3>
          <ul>
            {rows.map((row) => (
              <LedgerLine
                key={row.id}
                row={row}
                group={name}
                open={asked.value === row.id}
                onAskWhy={(id) => {
                  asked.value = asked.value === id ? undefined : id;
                }}
              />
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}
