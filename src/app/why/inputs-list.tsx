/** What a figure was computed from: other figures to ask further, and numbers of the file with their origin. */

import type { Figure } from "../../catalogue/figure.ts";
import { quantities } from "../../catalogue/quantities.ts";
import { shownFigure } from "../burst/burst-state.ts";
import { jumpTo } from "../findings/jump.ts";
import { shownParts } from "../ledger/ledger-rows.ts";
import { OriginMark } from "../ledger/origin-mark.tsx";
import { drawable } from "../state/document.ts";
import { asked } from "../state/view.ts";

function FigureInput({ figure }: { readonly figure: Figure }) {
  const { number, unit } = shownParts(figure);
  const quantity = quantities.get(figure.id);
  return (
    <li>
      <button
        type="button"
        class="quiet"
        onClick={() => {
          asked.value = figure.id;
        }}
      >
        {quantity ? `${quantity.group}, ${quantity.name}` : figure.id}
      </button>
      <span class="number">{`${number} ${unit}`}</span>
      <span class="mark" />
    </li>
  );
}

function KeyInput({ path }: { readonly path: string }) {
  const provenances = drawable.value?.file.provenances;
  const own = provenances?.get(path);
  const inside = own ? 0 : [...(provenances?.keys() ?? [])].filter((key) => key.startsWith(`${path}.`)).length;
  return (
    <li>
      <button type="button" class="quiet" onClick={() => jumpTo(path, own?.place.line)}>
        {path}
      </button>
      <span class="number">{own ? (own.text ?? "default") : inside > 0 ? `${inside} numbers` : ""}</span>
      <span class="mark">{own && <OriginMark origin={own.origin} />}</span>
    </li>
  );
}

export function InputsList({ from }: { readonly from: readonly string[] }) {
  return (
    <ul class="inputs">
      {from.map((id) => {
        const figure = shownFigure(id);
        return figure ? <FigureInput key={id} figure={figure} /> : <KeyInput key={id} path={id} />;
      })}
    </ul>
  );
}
