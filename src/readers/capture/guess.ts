/** From the first lines of a text to its whole dialect, each part with its reason; what a person set is kept to. */
import type { Finding } from "../../catalogue/finding.ts";
import { dimensions } from "../../units/dimension.ts";
import { formatQuantity } from "../../units/format.ts";
import { bareSweep, type Grid } from "./bare-sweep.ts";
import type {
  CaptureSettings,
  ColumnDialect,
  ColumnUse,
  ConverterCodes,
  Dialect,
  Encoding,
  Reason,
} from "./dialect.ts";
import { type HeaderFacts, readHeader, type Said } from "./header.ts";
import { codesOf, type HeaderCodes } from "./header-codes.ts";
import { type HeaderUnit, headerUnit, nameAndUnit } from "./header-unit.ts";
import { generalWords, indexWords, timeWords } from "./header-words.ts";
import { counted, shortened, trouble } from "./problems.ts";
import { guessedRole } from "./roles.ts";
import { delimiterWords, type Shape, shapeOf } from "./shape.ts";
import { cellsOf } from "./token.ts";

export interface Guess {
  readonly dialect?: Dialect;
  readonly findings: readonly Finding[];
}

/** Guesses from the first lines, of which `lines` are whole. */
export function guessDialect(
  lines: readonly string[],
  { encoding, encodingBecause, settings }: { encoding: Encoding; encodingBecause: string; settings: CaptureSettings },
): Guess {
  const wide = tooWide(lines);
  if (wide !== undefined) return { findings: [wide] };
  const shape = shapeOf(lines, settings);
  if (shape === undefined) return { findings: [noNumbers(lines, settings)] };
  const hexadecimal = bareHexadecimal(lines, shape);
  if (hexadecimal !== undefined && settings.headerLines === undefined) return { findings: [hexadecimal] };
  const commas = decimalCommasBetweenCommas(lines, shape);
  if (commas !== undefined && settings.decimal === undefined && settings.delimiter === undefined)
    return { findings: [commas] };
  const header = readHeader(headerOf(lines, shape), shape);
  const findings: Finding[] = [];
  const reasons: Reason[] = [
    { part: "encoding", because: settings.encoding === undefined ? encodingBecause : "set" },
    {
      part: "delimiter",
      because:
        settings.delimiter === undefined
          ? `${shape.fits} of the first ${shape.of} lines are rows when cut at ${delimiterWords[shape.delimiter]}`
          : "set",
    },
    {
      part: "decimal",
      because:
        settings.decimal === undefined
          ? shape.decimalSeen
            ? `numbers have \`${shape.decimal}\` in them`
            : "no number has a decimal sign; the point is assumed"
          : "set",
    },
    {
      part: "headerLines",
      because:
        settings.headerLines === undefined
          ? `line ${shape.headerLines + 1} is the first with a number in ${counted(shape.numeric.length, "column")}`
          : "set",
    },
  ];
  const time = timeOf(shape, header, settings);
  if (time.because !== undefined) reasons.push({ part: "time", because: time.because });
  const columns = columnsOf({ shape, header, settings, time, reasons, findings });
  if (time.frequency !== undefined) findings.push(frequencyGuessed(time.frequency.grid));
  if (time.refusal !== undefined) findings.push(time.refusal);
  const interval = settings.interval ?? (time.column === undefined ? header.interval?.value : undefined);
  const dialect: Dialect = {
    format: "csv",
    encoding,
    delimiter: shape.delimiter,
    decimal: shape.decimal,
    ...(shape.decimalSeen || settings.decimal !== undefined ? {} : { decimalAssumed: true }),
    headerLines: shape.headerLines,
    columns,
    ...(interval === undefined ? {} : { interval }),
    ...(time.column === undefined || header.interval === undefined ? {} : { intervalAnnounced: header.interval.value }),
    start: settings.start ?? (time.column === undefined ? (header.start?.value ?? 0) : 0),
    ...(header.rows === undefined ? {} : { rowsAnnounced: header.rows.value }),
    reasons,
  };
  if (!columns.some(({ use }) => use === "channel")) findings.push(noChannel(shape));
  return { dialect, findings };
}

/** No record has as many channels; a line of so many cells is a record that lies on its side, or a file without line ends. */
const mostColumns = 512;

function tooWide(lines: readonly string[]): Finding | undefined {
  const at = lines.findIndex(
    (line) => line.length > 2 * mostColumns && (line.match(/[,;\t| ]+/g)?.length ?? 0) > mostColumns,
  );
  if (at === -1) return undefined;
  return trouble({
    rule: "capture-too-wide",
    line: at + 1,
    what: `this line has more than ${mostColumns} cells`,
    expected: "one row for each sample, with a column for the time and one for each channel",
    remedies: [
      "export the record with a row for each sample",
      "turn rows and columns over, in a spreadsheet for instance",
    ],
  });
}

/** The lines before the rows, and the rows that a header stands beside. */
function headerOf(lines: readonly string[], shape: Shape): { lines: readonly string[]; beside: readonly string[] } {
  const texts = (line: string) =>
    cellsOf(line, shape.delimiter).some(({ text }) => /[A-Za-z]{2}/.test(text) && !/^[-+]?(?:nan|inf)/i.test(text));
  return {
    lines: lines.slice(0, shape.headerLines),
    beside: lines.slice(shape.headerLines).map((line) => (texts(line) ? line : "")),
  };
}

interface TimeChoice {
  readonly column?: number;
  /** Without a name: the column that is taken for a frequency, and how it is spaced. There is no time then. */
  readonly frequency?: { readonly column: number; readonly grid: Grid };
  readonly unit?: HeaderUnit;
  readonly because?: string;
  readonly refusal?: Finding;
  /** The unit of the time column was not written. */
  readonly assumed?: true;
  /** It holds clock times. */
  readonly clock?: true;
}

function holdsClock(shape: Shape, column: number): boolean {
  return shape.rows.some((row) => row[column]?.kind === "number" && "clock" in row[column]);
}

function cellAt(said: Said<readonly string[]> | undefined, column: number): string {
  return said?.value[column] ?? "";
}

function timeOf(shape: Shape, header: HeaderFacts, settings: CaptureSettings): TimeChoice {
  const uses = settings.columns ?? {};
  const set = Object.entries(uses).find(([, { use }]) => use === "time");
  const named = (column: number) => nameAndUnit(cellAt(header.names, column));
  const unitOf = (column: number): HeaderUnit | undefined => {
    const written = uses[column]?.unit;
    if (written !== undefined) return headerUnit(written);
    const unit =
      headerUnit(cellAt(header.units, column)) ?? named(column).unit ?? headerUnit(cellAt(header.names, column));
    if (unit !== undefined) return unit.dimension === "time" ? unit : undefined;
    return header.horizontalUnit === undefined ? undefined : headerUnit(header.horizontalUnit.value);
  };
  const isClock = (column: number) => holdsClock(shape, column);
  const choose = (column: number, because: string): TimeChoice => {
    if (isClock(column)) return { column, because, clock: true };
    const unit = unitOf(column);
    return { column, because, ...(unit === undefined ? { assumed: true as const } : { unit }) };
  };
  if (settings.interval !== undefined) return { because: "the sample interval was set" };
  if (set !== undefined) return choose(Number(set[0]), "the time column was set");
  const isFrequency = (column: number) => headerUnit(uses[column]?.unit ?? "")?.dimension === "frequency";
  const open = shape.numeric.filter((column) => uses[column]?.use === undefined && !isFrequency(column));
  const isTimeUnit = (column: number) =>
    headerUnit(cellAt(header.units, column))?.dimension === "time" ||
    named(column).unit?.dimension === "time" ||
    headerUnit(cellAt(header.names, column))?.dimension === "time";
  const grid = bareGrid(shape, header, settings);
  if (grid !== undefined)
    return {
      frequency: { column: 0, grid },
      because: "column 1 is taken for a frequency",
      refusal: withoutTime(shape),
    };
  const clock = open.find(isClock);
  const byName =
    open.find((column) => isTimeUnit(column)) ??
    open.find((column) => timeWords.test(named(column).name) && column !== clock && !countsRows(shape, column));
  if (byName !== undefined)
    return choose(
      byName,
      `column ${byName + 1} is named \`${shortened(cellAt(header.names, byName) || cellAt(header.units, byName))}\``,
    );
  const said = header.interval;
  const byStep = open.find(
    (column) =>
      shape.numeric.length > 1 &&
      column !== clock &&
      stepsEvenly(shape, column) &&
      !countsRows(shape, column) &&
      // Beside a sample interval in the header only a column that steps by it is the time.
      (said === undefined || Math.abs(Math.abs(meanStep(shape, column)) / said.value - 1) < 0.01),
  );
  if (byStep !== undefined)
    return choose(byStep, `column ${byStep + 1} ${meanStep(shape, byStep) > 0 ? "rises" : "falls"} in equal steps`);
  if (said !== undefined)
    return { because: `line ${said.line} gives the sample interval: \`${shortened(said.text)}\`` };
  if (clock !== undefined) return choose(clock, `column ${clock + 1} holds clock times`);
  return { refusal: withoutTime(shape) };
}

const withoutTime = (shape: Shape): Finding =>
  trouble({
    rule: "capture-without-time",
    line: shape.headerLines + 1,
    what: "no column is a time, and no line of the header gives a sample interval or a sample rate",
    expected: "a column named `time` or `s`, or a header line such as `Sample Interval,1e-7`",
    remedies: ["give the sample interval, or say which column is the time"],
  });

/** Two columns without a name, a unit or anything said of them, that are a sweep by their numbers. */
function bareGrid(shape: Shape, { names, units, interval, horizontalUnit }: HeaderFacts, settings: CaptureSettings) {
  const isSaid = [names, units, interval, horizontalUnit].some((said) => said !== undefined);
  const isSet = [0, 1].some((column) => {
    const { use, unit } = settings.columns?.[column] ?? {};
    return unit !== undefined || (use !== undefined && use !== "channel");
  });
  if (isSaid || isSet || shape.width !== 2 || shape.numeric.length !== 2) return undefined;
  return bareSweep(valuesOf(shape, 0), valuesOf(shape, 1));
}

function frequencyGuessed(grid: Grid): Finding {
  return trouble({
    rule: "capture-frequency-guessed",
    severity: "look",
    line: 1,
    what: `column 1 has no name; it begins above 1 kHz and rises in ${grid}, and column 2 never changes its sign: they are taken for frequency in hertz and amplitude`,
    expected: "a first line that names both, e.g. `Frequency (Hz),Amplitude (V)`",
    remedies: ["say that column 1 is the time, and in which unit, where it is one", "set its unit where it is kHz"],
  });
}

function valuesOf(shape: Shape, column: number): readonly number[] {
  return shape.rows.flatMap((row) => {
    const token = row[column];
    return token?.kind === "number" ? [token.value] : [];
  });
}

/** Whole numbers that rise by one: they number the rows. */
function countsRows(shape: Shape, column: number): boolean {
  const values = valuesOf(shape, column);
  return (
    values.length > 2 &&
    values.every((value, i) => Number.isInteger(value) && (i === 0 || value === (values[i - 1] ?? 0) + 1))
  );
}

function meanStep(shape: Shape, column: number): number {
  const values = valuesOf(shape, column);
  return ((values.at(-1) ?? 0) - (values[0] ?? 0)) / (values.length - 1);
}

function stepsEvenly(shape: Shape, column: number): boolean {
  const values = valuesOf(shape, column);
  if (values.length < 4) return false;
  const mean = meanStep(shape, column);
  // A file that begins with its last sample has times that fall.
  const step = Math.abs(mean);
  return step > 0 && values.every((value, i) => Math.abs(value - (values[0] ?? 0) - i * mean) < 0.6 * step);
}

function columnsOf({
  shape,
  header,
  settings,
  time,
  reasons,
  findings,
}: {
  shape: Shape;
  header: HeaderFacts;
  settings: CaptureSettings;
  time: TimeChoice;
  reasons: Reason[];
  findings: Finding[];
}): readonly ColumnDialect[] {
  const columns: ColumnDialect[] = [];
  let channels = 0;
  /** Columns of the first part that the next columns continue, once a time column does. */
  let continued: number[] | undefined;
  for (let column = 0; column < shape.width; column++) {
    const set = settings.columns?.[column] ?? {};
    const written = nameAndUnit(cellAt(header.names, column));
    const part = `columns.${column}` as const;
    const isFrequency = column === time.frequency?.column || headerUnit(set.unit ?? "")?.dimension === "frequency";
    const own =
      set.use ??
      (isFrequency ? "channel" : undefined) ??
      useOf({ column, name: written.name, shape, header, time, findings, reasons });
    const continues = own === "continuation" ? time.column : own === "channel" ? continued?.shift() : undefined;
    if (own === "continuation") continued = columns.flatMap(({ use }, at) => (use === "channel" ? [at] : []));
    const use = continues === undefined ? own : "continuation";
    const first = continues === undefined ? undefined : columns[continues];
    if (first !== undefined && continues !== undefined) {
      columns.push({ ...first, name: written.name || first.name, use, continues });
      continue;
    }
    if (use !== "channel") {
      const isTime = use === "time";
      if (isTime && time.assumed)
        findings.push(timeWithoutUnit(column, { header, step: Math.abs(meanStep(shape, column)) }));
      const unit = isTime ? time.unit : undefined;
      columns.push({
        name: set.name ?? written.name,
        use,
        written: unit?.written ?? "",
        unit: isTime ? "s" : "1",
        factor: unit?.factor ?? 1,
        role: "unknown",
        ...(isTime && time.clock ? { clock: true } : {}),
      });
      continue;
    }
    channels++;
    const guessed = column === time.frequency?.column ? "Hz" : undefined;
    const unitText = set.unit ?? guessed ?? (cellAt(header.units, column) || written.unit?.written || written.unknown);
    const writtenUnit =
      headerUnit(unitText) ??
      // A lone `A` is more often the first channel's name than the ampere.
      (unitText === "" && written.name !== "A" ? headerUnit(written.name) : undefined) ??
      (unitText === "" && header.verticalUnit !== undefined ? headerUnit(header.verticalUnit.value) : undefined);
    const name =
      set.name ??
      (generalWords.test(written.name) && shape.numeric.length <= 2 ? header.source?.value : undefined) ??
      (written.name || `channel ${channels}`);
    if (writtenUnit === undefined && unitText !== "") {
      findings.push(
        trouble({
          rule: "capture-unit-unknown",
          severity: "look",
          path: `record.channels.${channels - 1}`,
          ...(header.names === undefined ? {} : { line: header.names.line }),
          what: `the unit \`${shortened(unitText)}\` of ${name} is not known; its numbers are kept as they stand`,
          expected: `V, mV, A, … (${dimensions.voltage.called}, ${dimensions.current.called})`,
          remedies: ["set the unit of the channel"],
        }),
      );
    }
    const said = set.codes === undefined && header.codes !== undefined && holdsCodes(shape, column, header.codes);
    const scaled =
      typeof set.codes === "object"
        ? { codes: set.codes, unit: writtenUnit }
        : said && header.codes !== undefined
          ? codesOf(header.codes, { channel: channels - 1, unit: writtenUnit })
          : undefined;
    const unit = scaled === undefined ? writtenUnit : scaled.unit;
    if (scaled !== undefined && said)
      findings.push(codesScaled({ name, channel: channels - 1, codes: scaled.codes, unit, line: header.codes?.line }));
    const guess = guessedRole({ name, unit: unit?.unit ?? "1" });
    reasons.push({ part, because: set.role === undefined ? `${guess.role}: ${guess.because}` : "set" });
    columns.push({
      name,
      use,
      written: unit?.written ?? "",
      unit: unit?.unit ?? "1",
      factor: (unit?.factor ?? 1) * (set.scale ?? 1),
      role: set.role ?? guess.role,
      ...(set.transducer === undefined ? {} : { transducer: set.transducer }),
      ...(scaled === undefined ? {} : { codes: scaled.codes }),
    });
  }
  return columns;
}

/** Whole numbers, more than one, and not multiples of an increment above 1: what stands there is not scaled yet. */
function holdsCodes(shape: Shape, column: number, { of }: HeaderCodes): boolean {
  const values = valuesOf(shape, column);
  const increment = of.increment?.[0]?.value ?? 1;
  return (
    values.every(Number.isInteger) &&
    new Set(values).size > 1 &&
    !(Math.abs(increment) > 1 && values.every((value) => value % increment === 0))
  );
}

function codesScaled({
  name,
  channel,
  codes: { increment, origin, reference },
  unit,
  line,
}: {
  name: string;
  channel: number;
  codes: ConverterCodes;
  unit: HeaderUnit | undefined;
  line: number | undefined;
}): Finding {
  const amount = (value: number) => formatQuantity(value * (unit?.factor ?? 1), unit?.unit ?? "1");
  return trouble({
    rule: "capture-codes-scaled",
    severity: "look",
    path: `record.channels.${channel}`,
    ...(line === undefined ? {} : { line }),
    what: `the samples of ${name} are whole numbers and taken as codes of a converter: (code − ${reference}) · ${amount(increment)} + ${amount(origin)}`,
    expected: "samples in volts or amperes, or codes with the increment that the header gives",
    remedies: ["say that they are no codes where they are scaled already"],
  });
}

function useOf({
  column,
  name,
  shape,
  header,
  time,
  findings,
  reasons,
}: {
  column: number;
  name: string;
  shape: Shape;
  header: HeaderFacts;
  time: TimeChoice;
  findings: Finding[];
  reasons: Reason[];
}): ColumnUse {
  const part = `columns.${column}` as const;
  const because = (text: string) => reasons.push({ part, because: text });
  if (column === time.column) return "time";
  if (!shape.numeric.includes(column)) {
    because("it holds no numbers in most rows");
    return "ignored";
  }
  if (holdsClock(shape, column)) {
    because("it holds clock times, and the time is given otherwise");
    return "ignored";
  }
  const unit = headerUnit(cellAt(header.units, column)) ?? nameAndUnit(cellAt(header.names, column)).unit;
  if (time.column !== undefined && (unit?.dimension === "time" || timeWords.test(name))) {
    const same = sameValues(shape, column, time.column);
    if (!same && goesOn(shape, time.column, column)) {
      because("it goes on where the first time column ends");
      return "continuation";
    }
    if (!same)
      findings.push(
        trouble({
          rule: "capture-second-time",
          severity: "look",
          line: header.names?.line ?? shape.headerLines + 1,
          what: `column ${column + 1} is a second time axis, not the same as column ${time.column + 1}; it is not used`,
          expected: "all channels sampled at the same times",
        }),
      );
    because(same ? "it repeats the time column" : "a second time column");
    return "ignored";
  }
  if (unit?.dimension === "energy") {
    because("it is an energy, which no probe shows");
    return "ignored";
  }
  const isTime = unit?.dimension === "time" || timeWords.test(name);
  const stepsUnnamed = name === "" && shape.numeric.length > 1 && stepsEvenly(shape, column);
  if (time.column === undefined && !countsRows(shape, column) && (isTime || stepsUnnamed)) {
    because("it is a time, and the sample interval is given otherwise");
    return "ignored";
  }
  if (
    countsRows(shape, column) &&
    (indexWords.test(name) ||
      timeWords.test(name) ||
      /^(?:sequence|samples?|points?)$/i.test(cellAt(header.units, column)) ||
      (column === 0 && shape.numeric.length > 1))
  ) {
    because("it numbers the rows");
    return "index";
  }
  return "channel";
}

/** As even as the first, and later than all that was seen of it: whether it does go on is known at the end. */
function goesOn(shape: Shape, first: number, column: number): boolean {
  const step = meanStep(shape, first);
  const end = valuesOf(shape, first).at(-1) ?? Number.NaN;
  return Math.abs(meanStep(shape, column) / step - 1) < 0.01 && (valuesOf(shape, column)[0] ?? Number.NaN) > end;
}

function sameValues(shape: Shape, a: number, b: number): boolean {
  return shape.rows.every((row) => {
    const [one, other] = [row[a], row[b]];
    return one?.kind !== "number" || other?.kind !== "number" || one.value === other.value;
  });
}

/** Rows farther apart show no oscillation of any coil [s]. */
const longestStep = 1e-4;

function timeWithoutUnit(column: number, { header, step }: { header: HeaderFacts; step: number }): Finding {
  const slow = step > longestStep;
  return trouble({
    rule: "capture-time-without-unit",
    severity: slow ? "fix" : "look",
    ...(header.names === undefined ? {} : { line: header.names.line }),
    what: `the time in column ${column + 1} has no unit; it is taken as seconds${slow ? `, which puts ${formatQuantity(step, "s")} between two rows: no coil swings so slowly` : ""}`,
    expected: "a unit in the header, e.g. `Time (s)`",
    remedies: ["set the unit of the time column"],
  });
}

function noNumbers(lines: readonly string[], settings: CaptureSettings): Finding {
  const first = lines.findIndex((line) => line.trim() !== "");
  if (first === -1) {
    return trouble({
      rule: "capture-empty",
      line: 1,
      what: "there is nothing in the file",
      expected: "rows of numbers: a time and at least one channel",
    });
  }
  const set = settings.delimiter !== undefined || settings.decimal !== undefined || settings.headerLines !== undefined;
  return trouble({
    rule: "capture-without-numbers",
    line: first + 1,
    length: Math.max(1, Math.min(40, (lines[first] ?? "").length)),
    what: `${lines.length === 1 ? "its only line is no" : `none of the first ${lines.length} lines is a`} row of numbers; it begins \`${shortened((lines[first] ?? "").trim())}\``,
    expected: "rows of numbers, cut by commas, semicolons, tabs or spaces, after at most some header lines",
    remedies: [
      set
        ? "leave delimiter, decimal sign and header lines to be found"
        : "export the record as CSV, with the time as the first column",
    ],
  });
}

function noChannel(shape: Shape): Finding {
  return trouble({
    rule: "capture-without-channel",
    line: shape.headerLines + 1,
    what: "the rows have no column of measured values",
    expected: "beside the time at least one column of numbers",
  });
}

/** `7f`, `80`, `c3`: some of the codes look like decimals, and half of a record would be read as another one. */
function bareHexadecimal(lines: readonly string[], shape: Shape): Finding | undefined {
  const isCode = (text: string) => /^(?=.*[a-df])[0-9a-f]{2,8}$/i.test(text);
  const texts = lines.map((line) => cellsOf(line, shape.delimiter).map(({ text }) => text));
  const held = texts.filter((row) => row.some(isCode) && row.every((text) => /^[0-9a-f]*$/i.test(text)));
  if (held.length < lines.length / 5) return undefined;
  return trouble({
    rule: "capture-hexadecimal",
    line: texts.findIndex((row) => row.some(isCode)) + 1,
    what: `${held.length} of the first ${lines.length} lines look like hexadecimal codes, the first \`${shortened(held[0]?.find(isCode) ?? "")}\``,
    expected: "decimal numbers, or codes that show what they are: `0x7F`",
    remedies: ["export the record in decimal numbers, or with `0x` before each code"],
  });
}

/** `0,001,1,052`: cut at the comma, every cell is whole digits and some begin with a zero. Nobody can tell the two commas apart. */
function decimalCommasBetweenCommas(lines: readonly string[], shape: Shape): Finding | undefined {
  if (shape.delimiter !== "," || shape.decimalSeen || shape.numeric.length < 3) return undefined;
  const rows = lines.slice(shape.headerLines).map((line) => cellsOf(line, ",").map(({ text }) => text));
  const fractions = rows.filter((row) =>
    row.some((cell, i) => i % 2 === 1 && /^(?:0\d+|\d{2,}[eE][-+]?\d+)$/.test(cell)),
  );
  if (fractions.length === 0 || rows.some((row) => row.some((cell) => cell.includes(".")))) return undefined;
  return trouble({
    rule: "capture-decimal-comma",
    line: shape.headerLines + 1,
    what: "the comma seems to stand both between the cells and inside the numbers",
    expected: "semicolons or tabs between the cells where numbers have a decimal comma",
    remedies: [
      "export with semicolons, or with decimal points",
      "set delimiter and decimal sign where the cells are whole numbers indeed",
    ],
  });
}
