/** The figures of records and of a fit, with what they were computed from: for what explains figures wherever they come from. */
import { type Figure, type Figures, figure } from "../catalogue/figure.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import { channelRoles } from "../description/record.ts";
import type { RecordReading } from "../matching/record.ts";
import { formatQuantity } from "../units/format.ts";
import type { Solution } from "./contract.ts";
import { captureFigures } from "./match-capture.ts";
import type { Match, MatchedFigure, Residual } from "./match-contract.ts";
import { type MatchRecord, nameOf } from "./match-observe.ts";

/** What each figure of a record stands on. */
const captureSources: Readonly<Record<string, SourceKey>> = {
  "capture.repetitionRate": "record-repetition",
  "capture.jitter": "record-repetition",
  "capture.onTime": "record-drive",
  "capture.carrier": "record-phase",
};
const ofDecay: SourceKey = "variable-projection-1973";
const ofDrive: SourceKey = "coupled-circuits";
const drivenIds: readonly string[] = ["capture.poles.lower", "capture.poles.upper", "capture.beat"];
/** What was read while the bridge drove, where this figure was. */
const fromDrive = (id: string, { driven }: RecordReading) => (drivenIds.includes(id) ? driven : undefined);

/** Figures of a record that a thing seen is, by how the residual calls it. */
const seenAs: readonly (readonly [RegExp, string])[] = [
  [/^Q of /, "capture.q"],
  [/^lower pole/, "capture.poles.lower"],
  [/^upper pole/, "capture.poles.upper"],
  [/^carrier/, "capture.carrier"],
];
/** Standard deviation left below which a number of the file was told by the records. */
const told = 0.7;

/** `capture.*` of the first record that shows each, and `match.*` of the fit. */
export function benchFigures({
  match,
  records,
}: {
  match: Match | undefined;
  records: readonly MatchRecord[];
}): Figures {
  const made = new Map<string, Figure>();
  for (const each of records) {
    for (const one of "reading" in each ? captureFiguresOf(each) : []) if (!made.has(one.id)) made.set(one.id, one);
  }
  for (const one of match?.matched ?? []) made.set(one.id, fittedFigure(one, match!, made));
  return made;
}

/** The same solution, its figures first, then those of the bench. */
export const solutionWithBench = (
  solution: Solution,
  bench: { match: Match | undefined; records: readonly MatchRecord[] },
): Solution => ({ ...solution, figures: new Map([...solution.figures, ...benchFigures(bench)]) });

function captureFiguresOf(each: Extract<MatchRecord, { reading: unknown }>): readonly Figure[] {
  const { record, reading } = each;
  const channelOf = (id: string): number | undefined =>
    id === "capture.repetitionRate"
      ? reading.repetition?.channel
      : id === "capture.onTime"
        ? reading.onTime?.channel
        : id === "capture.carrier"
          ? reading.carrier?.channel
          : (fromDrive(id, reading) ?? reading.poles ?? reading.steady)?.channel;
  return captureFigures(reading).map(({ id, value, low, high }) => {
    const index = channelOf(id);
    const channel = index === undefined ? undefined : record.channels[index];
    const from = channel ? `${channel.name} (${channelRoles[channel.role]})` : "the record";
    return figure(id, value, {
      from: [],
      source: captureSources[id] ?? (fromDrive(id, reading) === undefined ? ofDecay : ofDrive),
      low: Math.min(low, value),
      high: Math.max(high, value),
      note: `read from ${from} of ${nameOf(each)}: ${record.length} samples, ${formatQuantity(record.interval, "s", { digits: 4, trim: true })} apart${driveNote(id, reading)}; no model of the coil is in it`,
    });
  });
}

function driveNote(id: string, reading: RecordReading): string {
  const from = fromDrive(id, reading)?.is;
  return from === undefined
    ? ""
    : `; from ${Math.round(from.cycles)} driven cycles, since no free decay shows both poles`;
}

function fittedFigure(one: MatchedFigure, match: Match, known: ReadonlyMap<string, Figure>): Figure {
  const { id, twin, value, low, high } = one;
  const seen = seenAs.flatMap(([pattern, capture]) =>
    known.has(capture) && match.residuals.some(({ says }) => pattern.test(says)) ? [capture] : [],
  );
  const keys = match.parameters.filter(({ left }) => left < told).flatMap(({ paths }) => paths);
  return figure(id, value, {
    from: [twin, ...seen, ...keys],
    source: "bench-match",
    low: Math.min(low, value),
    high: Math.max(high, value),
    note: noteOf(one, match),
  });
}

function noteOf(
  { drawn, unit, shift, left }: MatchedFigure,
  { taken, explanations, residuals, chiSquare }: Match,
): string {
  const cause = explanations.find(({ id }) => id === taken);
  const sentences = [
    `drawn ${formatQuantity(drawn, unit, { digits: 5 })}, ${Math.abs(shift).toFixed(1)} standard deviations ${shift < 0 ? "above" : "below"} what was fitted`,
    left > 0.95 ? "the records say nothing of it" : `of the drawing's doubt ${Math.round(100 * left)} % is left`,
    cause ? `fitted with ${cause.says}` : "no cause beyond the tolerances was taken",
    `χ² ${chiSquare.toPrecision(3)} for ${residuals.length} things seen${worstOf(residuals)}`,
  ];
  return sentences.join("; ");
}

function worstOf(residuals: readonly Residual[]): string {
  const worst = residuals.reduce<Residual | undefined>(
    (most, one) => (most && Math.abs(most.sigmas) >= Math.abs(one.sigmas) ? most : one),
    undefined,
  );
  return worst
    ? `, the farthest off ${worst.says} in ${worst.record} by ${Math.abs(worst.sigmas).toFixed(1)} of its error`
    : "";
}
