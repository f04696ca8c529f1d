/** One line of the ledger. Draws; knows no physics. */
import type { LedgerRow } from "./ledger-rows.ts";
import { OriginMark } from "./origin-mark.tsx";

interface Properties {
  readonly row: LedgerRow;
  readonly group: string;
  readonly open: boolean;
  readonly onAskWhy: (id: string) => void;
}

export function LedgerLine({ row, group, open, onAskWhy }: Properties) {
  const { id, name, number, unit, interval, origin, note } = row;
  return (
    <li class="ledger-line" data-figure={id} data-open={open || undefined}>
      <span class="name" title={note}>
        {name}
        {note !== undefined && <sup>*</sup>}
      </span>
      <span class="value">
        <span class="number">{number}</span> <span class="unit">{unit}</span>
      </span>
      <span class="interval">{interval}</span>
      <span class="mark">{origin && <OriginMark origin={origin} />}</span>
      <button
        type="button"
        class="why"
        aria-label={`Why ${group}, ${name}?`}
        aria-expanded={open}
        onClick={() => onAskWhy(id)}
      >
        why
      </button>
    </li>
  );
}
