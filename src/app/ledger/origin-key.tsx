/** What the four marks mean: a figure wears the mark of the least sure number under it. */
import type { Origin } from "../../description/provenance.ts";
import { OriginMark, originSays } from "./origin-mark.tsx";

const all: readonly Origin[] = ["measured", "datasheet", "drawn", "guessed"];

export function OriginKey() {
  return (
    <dl class="origin-key" aria-label="Marks: the least sure number that a figure rests on">
      {all.map((origin) => (
        <div key={origin}>
          <dt>
            <OriginMark origin={origin} />
          </dt>
          <dd>{originSays[origin]}</dd>
        </div>
      ))}
    </dl>
  );
}
