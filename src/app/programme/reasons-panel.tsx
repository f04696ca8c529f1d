/** Why pulses are shorter or left out, with counts; the key to the marks in the picture. */
import { shown } from "./programme-state.ts";
import { ReasonMark } from "./reason-marks.tsx";

export function ReasonsPanel() {
  const programme = shown.value;
  if (programme === undefined) return null;
  const { reasons, because, missing, limitsAssumed, limits } = programme;
  const rows = because
    .map(({ reason, says }) => ({ reason, says, ...reasons[reason] }))
    .filter(({ trimmed, dropped }) => trimmed + dropped > 0)
    .sort((a, b) => b.trimmed + b.dropped - a.trimmed - a.dropped);
  return (
    <section class="side-part" aria-labelledby="reasons-title">
      <h2 id="reasons-title">Shortened and left out</h2>
      {limits !== undefined && rows.length === 0 && <p>Nothing: every pulse is sent as it is wanted.</p>}
      {rows.length > 0 && (
        <ul class="reasons">
          {rows.map(({ reason, says, trimmed, dropped }) => (
            <li key={reason} data-reason={reason}>
              {trimmed > 0 && (
                <span>
                  <ReasonMark reason={reason} kind="trimmed" />
                  {` ${trimmed} shortened`}
                </span>
              )}
              {dropped > 0 && (
                <span>
                  <ReasonMark reason={reason} kind="dropped" />
                  {` ${dropped} left out`}
                </span>
              )}
              <span class="why-so">{says}</span>
            </li>
          ))}
        </ul>
      )}
      {limitsAssumed && (
        <p class="small">The file has no interrupter.limits: the interrupter's own setting stands for them.</p>
      )}
      {missing.length > 0 && (
        <ul class="missing">
          {missing.map(({ path, says }) => (
            <li key={path}>
              <code>{path}</code> {says}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
