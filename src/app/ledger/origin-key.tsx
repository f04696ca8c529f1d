/** What the four marks mean: a figure wears that of the least sure number that makes a real part of its doubt. */
import type { Origin } from "../../description/provenance.ts";
import { OriginMark, originSays } from "./origin-mark.tsx";

const all: readonly Origin[] = ["measured", "datasheet", "drawn", "guessed"];

export function OriginKey() {
  return (
    <dl class="origin-key" aria-label="Marks: the least sure number behind a figure's interval">
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
