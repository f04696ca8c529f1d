/** What has just happened, for those who hear the page: the result of a committed change, never of every step of a drag. */
import { useEffect, useState } from "preact/hooks";
import { quantities } from "../../catalogue/quantities.ts";
import { shownParts } from "../ledger/ledger-rows.ts";
import { settled } from "../state/answers.ts";
import type { Answer } from "../worker/answer.ts";

const spoken = ["secondary.f1", "tank.frequency", "tuning.ratio"];

function words({ solution, findings, failed }: Answer): string {
  const count = `${findings.length} ${findings.length === 1 ? "finding" : "findings"}`;
  if (solution === undefined) return `Not solved. ${failed ?? ""} ${count}.`;
  const figures = spoken.flatMap((id) => {
    const figure = solution.figures.get(id);
    if (figure === undefined) return [];
    const { number, unit } = shownParts(figure);
    return [`${quantities.get(id)?.name ?? id} ${number} ${unit}`.trim()];
  });
  return `Solved: ${figures.join(", ")}. ${count}.`;
}

export function LiveRegion() {
  const [said, say] = useState("");
  const now = settled.value;
  useEffect(() => {
    if (now === undefined) return;
    // a held key settles many times; only the last one is worth saying
    const timer = setTimeout(() => say(words(now)), 700);
    return () => clearTimeout(timer);
  }, [now]);
  return (
    <p class="only-heard" role="status" aria-live="polite">
      {said}
    </p>
  );
}
