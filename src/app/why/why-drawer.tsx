/** Why a figure is what it is: definition, formula in words, inputs, sensitivities, cross-checks, source. */
import { useEffect, useRef } from "preact/hooks";
import { quantities } from "../../catalogue/quantities.ts";
import { formatRange } from "../../units/index.ts";
import { shownFigure } from "../burst/burst-state.ts";
import { jumpTo } from "../findings/jump.ts";
import { decisiveOrigin } from "../ledger/decisive-origin.ts";
import { shownParts } from "../ledger/ledger-rows.ts";
import { OriginMark, originSays } from "../ledger/origin-mark.tsx";
import { behind, doubts } from "../state/answers.ts";
import { drawable } from "../state/document.ts";
import { asked } from "../state/view.ts";
import { CrossChecks } from "./cross-checks.tsx";
import { explained } from "./explanations.ts";
import { InputsList } from "./inputs-list.tsx";
import { SensitivityBars } from "./sensitivity-bars.tsx";
import { SourceWords } from "./source-words.tsx";

function giveFocusBack(id: string): void {
  document.querySelector<HTMLElement>(`[data-figure="${id}"] .why`)?.focus();
}

export function WhyDrawer() {
  const id = asked.value;
  const title = useRef<HTMLHeadingElement>(null);
  const figure = id === undefined ? undefined : shownFigure(id);
  const before = useRef<string | undefined>(undefined);
  useEffect(() => {
    if (id === undefined && before.current !== undefined) giveFocusBack(before.current);
    else title.current?.focus();
    before.current = id;
  }, [id]);
  if (id === undefined || figure === undefined) return null;
  const quantity = quantities.get(id);
  const provenances = drawable.value?.file.provenances;
  const { number, unit } = shownParts(figure);
  const explanation = explained.value.get(id)?.explanation;
  const sensitivities = explanation?.sensitivities ?? [];
  const doubt = explanation?.doubt ?? doubts.value?.get(id);
  const decisive = provenances && doubt ? decisiveOrigin(doubt, provenances) : undefined;
  const close = () => {
    asked.value = undefined;
  };
  return (
    <aside class="why-drawer" aria-labelledby="why-title" data-behind={behind.value || undefined}>
      <header>
        <h2 id="why-title" ref={title} tabIndex={-1}>
          Why {quantity ? `${quantity.group}, ${quantity.name}` : id}?
        </h2>
        <button type="button" class="plain" onClick={close}>
          Close
        </button>
      </header>
      <p class="answer">
        <span class="number">{number}</span> {unit}
        {doubt && <small>90 % interval {formatRange(doubt, figure.unit)}</small>}
      </p>
      {quantity && <p>{quantity.definition}</p>}
      {figure.note !== undefined && <p class="note">{figure.note}</p>}
      {quantity && (
        <section>
          <h3>How</h3>
          <p>{quantity.formula}</p>
        </section>
      )}
      <section>
        <h3>From</h3>
        <InputsList from={figure.from} />
        {decisive && (
          <p class="decisive">
            <OriginMark origin={decisive.origin} />
            <span>
              the least sure number behind its interval, {decisive.path}, is {originSays[decisive.origin]}
            </span>
          </p>
        )}
      </section>
      {explanation === undefined && <p class="working">interval and sensitivities are being worked out</p>}
      {sensitivities.length > 0 && (
        <section>
          <h3>What moves it</h3>
          <p>per cent of this figure for one per cent of each number</p>
          <SensitivityBars sensitivities={sensitivities} most={8} label={`What moves ${quantity?.name ?? id}`} />
        </section>
      )}
      {explanation?.measure && (
        <section>
          <h3>Measure next</h3>
          <p>
            <button type="button" class="quiet" onClick={() => jumpTo(explanation.measure?.path ?? "")}>
              {explanation.measure.path}
            </button>{" "}
            makes {Math.round(explanation.measure.share * 100)} % of the doubt. Known exactly, it would leave{" "}
            {formatRange(explanation.measure, figure.unit)}.
          </p>
        </section>
      )}
      {figure.crossChecks.length > 0 && (
        <section>
          <h3>Handbook beside it</h3>
          <CrossChecks figure={figure} />
        </section>
      )}
      <section>
        <h3>Source</h3>
        <p>
          <SourceWords source={figure.source} />
        </p>
      </section>
    </aside>
  );
}
