/** What was read, fitted and adopted, newest first, as it stands beside the coil file. */
import { useEffect } from "preact/hooks";
import { quantities } from "../../catalogue/quantities.ts";
import type { LogEntry } from "../../readers/bench-log.ts";
import { formatQuantity } from "../../units/index.ts";
import { shareText } from "../../views/match-words.ts";
import { onDisk } from "../state/document.ts";
import { entries, exportLog, isForeign, loadLog, logName, logTrouble, unreadLines } from "./bench-log.ts";

/** `2026-11-25 16:20 UTC` */
const dayText = (at: string) => `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`;
const digitsOf = (id: string) => quantities.get(id)?.display.digits ?? 4;
const nameOf = (id: string) => quantities.get(id)?.name ?? id;

const titles: Readonly<Record<LogEntry["kind"], string>> = {
  match: "Records read and fitted",
  adopted: "Adopted into the file",
  withdrawn: "Taken out of the file again",
  reading: "Reading of the bring-up",
};

function Entry({ entry }: { readonly entry: LogEntry }) {
  switch (entry.kind) {
    case "match":
      return (
        <>
          <p>{entry.says}</p>
          {entry.records.map(({ name, state, bus, figures }) => (
            <p key={name}>
              <b>{name}</b>
              {[state, bus === undefined ? undefined : formatQuantity(bus, "V", { trim: true })]
                .filter((part) => part !== undefined)
                .map((part) => `, ${part}`)
                .join("")}
              {figures.length > 0 &&
                `: ${figures.map(({ id, value, unit }) => `${nameOf(id)} ${formatQuantity(value, unit, { digits: digitsOf(id) })}`).join(", ")}`}
            </p>
          ))}
          {entry.fitted.length > 0 && (
            <p class="small">
              {`fitted: ${entry.fitted
                .map(
                  (each) =>
                    `${nameOf(each.id)} ${formatQuantity(each.value, each.unit, { digits: digitsOf(each.id) })} ${shareText(each)}`,
                )
                .join(
                  ", ",
                )}; χ² ${formatQuantity(entry.chiSquare, "1", { digits: 3 })} from ${entry.observations} things seen`}
            </p>
          )}
        </>
      );
    case "adopted":
    case "withdrawn":
      return (
        <ul>
          {entry.edits.map(({ path, value }) => (
            <li key={path}>
              <code>{path}</code> {value}
            </li>
          ))}
        </ul>
      );
    case "reading": {
      const { says, value, unit, low, high, record } = entry;
      const inside = value >= low && value <= high;
      return (
        <p>
          {`${says} ${formatQuantity(value, unit)}${record === undefined ? "" : ` from ${record}`}, ${inside ? "inside" : value < low ? "below" : "above"} ${formatQuantity(low, unit)} to ${formatQuantity(high, unit)}`}
        </p>
      );
    }
  }
}

export function LogPage() {
  const name = onDisk.value.name;
  useEffect(() => void loadLog(), [name]);
  const all = entries.value;
  return (
    <div class="bench-log">
      <header class="side-head">
        <h2>{`Log of ${name}`}</h2>
        <button type="button" aria-disabled={all.length === 0} onClick={() => all.length > 0 && exportLog()}>
          Take a copy
        </button>
      </header>
      {logTrouble.value !== undefined && (
        <p class="wrong" role="alert">
          {logTrouble.value}
        </p>
      )}
      {isForeign.value && (
        <p
          class="wrong"
          role="alert"
        >{`${logName.value} is no log of Coilwright. It is left as it is, and nothing is added.`}</p>
      )}
      {unreadLines.value.length > 0 && (
        <p class="small">{`Lines that are no entry and stay as they are: ${unreadLines.value.join(", ")}`}</p>
      )}
      {all.length === 0 && !isForeign.value && (
        <p class="empty">{`Nothing yet. What is read, fitted and adopted is added to ${logName.value ?? "a file beside the coil file"}.`}</p>
      )}
      <ol>
        {all.map((entry, n) => (
          <li key={`${all.length - n}`} data-entry={entry.kind}>
            <h3>
              <time dateTime={entry.at}>{dayText(entry.at)}</time> {titles[entry.kind]}
            </h3>
            <Entry entry={entry} />
          </li>
        ))}
      </ol>
    </div>
  );
}
