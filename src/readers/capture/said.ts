/** How a file was read, in a sentence for whoever has to see whether it was read rightly. */

import type { BenchRecord } from "../../description/record.ts";
import { formatQuantity } from "../../units/format.ts";
import type { Dialect } from "./dialect.ts";
import { counted } from "./problems.ts";
import { delimiterWords } from "./shape.ts";

/** Of a sweep: it has no time. */
export function sweepSaid(dialect: Dialect): string {
  return [...cellParts(dialect), ...namesOf(dialect)].join(", ");
}

/** @param record  with the roles that a person said, where one was read: its channels are numbered as they are spoken of */
export function dialectSaid(dialect: Dialect, record: BenchRecord | undefined): string {
  const parts = dialect.format === "csv" ? tableParts(dialect) : [dialect.format === "wav" ? "WAV" : "JSON"];
  if (record === undefined) return [...parts, ...namesOf(dialect)].join(", ");
  const channels = record.channels.map(
    ({ name, unit, role }, n) =>
      `channel ${n + 1} ${name}${unit === "1" ? "" : ` in ${unit}`}${role === "unknown" ? "" : ` (${role})`}`,
  );
  const length = `${counted(record.length, "sample")}, one each ${formatQuantity(record.interval, "s")}`;
  return [parts.join(", "), ...channels, length].join("; ");
}

/** Of a sweep, or of a file that gave no record. */
const namesOf = ({ columns }: Dialect): readonly string[] =>
  columns.flatMap(({ name, use, written }, n) =>
    use === "channel" || use === "time"
      ? [`column ${n + 1} ${name || use}${written === "" ? "" : ` in ${written}`}`]
      : [],
  );

function cellParts({ delimiter, decimal, headerLines, columns }: Dialect): readonly string[] {
  return [
    ...(columns.length > 1 ? [`${delimiterWords[delimiter]} between cells`] : []),
    decimal === "." ? "decimal point" : "decimal comma",
    `${counted(headerLines, "line")} before the rows`,
  ];
}

function tableParts(dialect: Dialect): readonly string[] {
  const { columns, interval } = dialect;
  const time = columns.findIndex(({ use }) => use === "time");
  const unit = columns[time]?.written;
  return [
    ...cellParts(dialect),
    ...(interval === undefined && time >= 0 ? [`time in column ${time + 1}${unit ? ` (${unit})` : ""}`] : []),
    ...(interval === undefined ? [] : ["time from the sample interval"]),
  ];
}
