/** What the file would have to say before the rest of a room can be shown. */
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { jumpTo } from "../findings/jump.ts";
import { textShown } from "../state/view.ts";

function titleOf({ missing, waveforms }: BurstStudy): string {
  if (waveforms === undefined) return "No burst can be shown yet";
  return missing.length > 0 ? "Not everything is known" : "Worth knowing of this burst";
}

export function MissingList({ study }: { readonly study: BurstStudy }) {
  const { missing, remarks, waveforms } = study;
  if (missing.length === 0 && remarks.length === 0) return null;
  return (
    <section class="missing" aria-labelledby="missing-title">
      <h2 id="missing-title">{titleOf(study)}</h2>
      <ul>
        {missing.map(({ path, says }) => (
          <li key={path}>
            <button type="button" class="quiet" onClick={() => jumpTo(path)}>
              {path}
            </button>{" "}
            {says}
          </li>
        ))}
        {remarks.map((remark) => (
          <li key={remark}>{remark}</li>
        ))}
      </ul>
      {waveforms === undefined && (
        <p>
          <button
            type="button"
            onClick={() => {
              textShown.value = true;
            }}
          >
            Open the text to write what is missing
          </button>
        </p>
      )}
    </section>
  );
}
