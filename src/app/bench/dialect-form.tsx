/** How the file was taken apart: shown with its reasons, and set otherwise where it was guessed wrongly. */
import type { CaptureSettings, Dialect } from "../../readers/capture.ts";
import { formatQuantity } from "../../units/index.ts";
import { Words } from "../frame/words.tsx";
import type { CaptureView } from "../worker/bench-answer.ts";
import { readAgain } from "./bench-state.ts";
import { Choice } from "./choice.tsx";
import { TextField } from "./text-field.tsx";
import { TypedField } from "./typed-field.tsx";

const signs: readonly (readonly [Dialect["delimiter"], string])[] = [
  [",", "comma"],
  [";", "semicolon"],
  ["\t", "tab"],
  [" ", "spaces"],
  ["|", "bar"],
];
const decimals: readonly (readonly [Dialect["decimal"], string])[] = [
  [".", "point"],
  [",", "comma"],
];

/** `CSV, semicolon between columns, decimal comma, 12 lines of header, 25 000 samples every 40 ns` */
export function dialectText({ dialect, kind, samples, interval }: CaptureView): string {
  if (dialect === undefined) return "not a record that can be read";
  const { format, delimiter, decimal, headerLines } = dialect;
  const sign = signs.find(([each]) => each === delimiter)?.[1] ?? delimiter;
  const written =
    format === "csv"
      ? [
          "CSV",
          `${sign} between columns`,
          `decimal ${decimal === "," ? "comma" : "point"}`,
          `${headerLines} ${headerLines === 1 ? "line" : "lines"} of header`,
        ]
      : [format.toUpperCase()];
  const counted = samples.toLocaleString("en-US").replaceAll(",", "\u202f");
  const size =
    kind === "time" ? [`${counted} samples every ${formatQuantity(interval, "s", { digits: 3, trim: true })}`] : [];
  return [...written, ...size].join(", ");
}

/** `columns.1` → `column 2` */
const partText = (part: string) =>
  part
    .replace(/^columns\.(\d+)$/, (_, index: string) => `column ${Number(index) + 1}`)
    .replace("delimiter", "between columns")
    .replace("headerLines", "lines of header");

const uses: readonly (readonly [Column["use"], string])[] = [
  ["time", "time"],
  ["channel", "a channel"],
  ["index", "numbers of the rows"],
  ["ignored", "left out"],
];
type Column = Dialect["columns"][number];

/** What a column is, in which unit, and by what it is to be multiplied. */
function ColumnLine({ view, index }: { readonly view: CaptureView; readonly index: number }) {
  const column = view.dialect?.columns[index];
  if (column === undefined) return null;
  const { settings } = view.says;
  const said = settings.columns?.[index];
  const set = (more: NonNullable<typeof said>) =>
    readAgain(view, { ...settings, columns: { ...settings.columns, [index]: { ...said, ...more } } });
  const name = column.name || `column ${index + 1}`;
  return (
    <li class="three">
      <Choice label={name} value={column.use} options={uses} onTake={(use) => set({ use })} />
      <TextField label={`unit of ${name}`} value={said?.unit ?? column.written} onTake={(unit) => set({ unit })} />
      <TypedField
        label="times"
        dimension="ratio"
        unit="1"
        value={said?.scale ?? 1}
        onTake={(scale) => scale !== undefined && scale !== 0 && set({ scale })}
      />
    </li>
  );
}

export function DialectForm({ view }: { readonly view: CaptureView }) {
  const { dialect, says, name } = view;
  if (dialect?.format !== "csv") return null;
  const set = (more: CaptureSettings) => readAgain(view, { ...says.settings, ...more });
  return (
    <details class="dialect-form">
      <summary>{`How ${name} is written`}</summary>
      <div class="two">
        <Choice
          label="between columns"
          value={dialect.delimiter}
          options={signs}
          onTake={(delimiter) => set({ delimiter })}
        />
        <Choice label="decimal" value={dialect.decimal} options={decimals} onTake={(decimal) => set({ decimal })} />
        <TypedField
          label="lines of header"
          dimension="ratio"
          unit="1"
          value={dialect.headerLines}
          onTake={(lines) => lines !== undefined && lines >= 0 && set({ headerLines: Math.round(lines) })}
        />
        <TypedField
          label="between samples"
          dimension="time"
          unit="s"
          value={says.settings.interval}
          placeholder={view.interval > 0 ? formatQuantity(view.interval, "s", { digits: 4, trim: true }) : ""}
          onTake={(interval) => {
            const { interval: _, ...rest } = says.settings;
            readAgain(view, interval !== undefined && interval > 0 ? { ...rest, interval } : rest);
          }}
        />
      </div>
      <ul class="channels" aria-label={`Columns of ${name}`}>
        {dialect.columns.map((column, index) => (
          <ColumnLine key={`${index} ${column.name}`} view={view} index={index} />
        ))}
      </ul>
      <ul class="small reasons">
        {dialect.reasons.map(({ part, because }) => (
          <li key={part}>
            {`${partText(part)}: `}
            <Words text={because} />
          </li>
        ))}
      </ul>
    </details>
  );
}
