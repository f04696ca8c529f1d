/** Always in sight: how many findings of each severity, the gravest one in words, and the list on demand. */

import { Words } from "../frame/words.tsx";
import { answer, behind, findings as found } from "../state/answers.ts";
import { findingsShown } from "../state/view.ts";
import { FindingItem } from "./finding-item.tsx";
import { SeverityMark, severities, severitySays } from "./severity-mark.tsx";

export function FindingsStrip() {
  const findings = found.value;
  const gravest = findings[0];
  const shown = findingsShown.value;
  const failed = answer.value?.failed;
  const headline =
    failed ??
    gravest?.what ??
    (answer.value === undefined ? "not looked at yet" : "nothing found; that is no permission");
  return (
    <section class="findings" aria-label="Findings" data-behind={behind.value || undefined}>
      <button
        type="button"
        class="strip"
        aria-expanded={shown}
        aria-controls="findings-list"
        onClick={() => {
          findingsShown.value = !shown;
        }}
      >
        <span class="counts">
          {severities.map((severity) => {
            const count = findings.filter((one) => one.severity === severity).length;
            return (
              <span key={severity} class={`count ${severity}`} data-count={count} title={severitySays[severity]}>
                <SeverityMark severity={severity} />
                <b>{count}</b> {severity}
              </span>
            );
          })}
        </span>
        <span class="headline">
          <Words text={headline} />
        </span>
        <span class="toggle">{shown ? "fold" : "unfold"}</span>
      </button>
      <section id="findings-list" class="list" hidden={!shown} aria-label="List of findings">
        {failed !== undefined && <p class="wrong">The coil could be read but not solved: {failed}</p>}
        {findings.length === 0 && <p>No rule found anything in this file. The rules do not know your workshop.</p>}
        <ol>
          {findings.map((finding) => (
            <FindingItem key={`${finding.rule} ${finding.path} ${finding.what}`} finding={finding} />
          ))}
        </ol>
      </section>
    </section>
  );
}
