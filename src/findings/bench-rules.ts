/** What the readings of records and the fits look for: findings that need no coil, so no rule of the coil makes them. */
import type { SourceKey } from "../catalogue/sources.ts";

export interface BenchRule {
  readonly id: string;
  /** What it looks for and what comes of it, one sentence. */
  readonly says: string;
  readonly source: SourceKey;
  /** Figures that it looks at. */
  readonly needs: readonly string[];
}

const of =
  (source: SourceKey, needs: readonly string[] = []) =>
  ([id, says]: readonly [string, string]): BenchRule => ({ id, says, source, needs });

/** By what a table, a sound or a JSON text must have to be a record at all. */
const files: readonly (readonly [string, string])[] = [
  ["capture-cancelled", "a reading that somebody stopped: what was read so far is not used"],
  [
    "capture-channels-stacked",
    "channels written one below the other: they are put side by side by their number of rows",
  ],
  [
    "capture-codes-doubtful",
    "numbers that may be the converter's codes and not volts: nothing in the file says the scale",
  ],
  [
    "capture-codes-scaled",
    "the converter's codes with their scale in the header: they are turned into the channel's unit",
  ],
  ["capture-decimal-comma", "whether a comma divides columns or decimals: both readings fit, and one was taken"],
  ["capture-empty", "a file without a row"],
  [
    "capture-frequency-guessed",
    "two columns without names, the first rising from far above zero: they are taken for frequency and amplitude",
  ],
  [
    "capture-hexadecimal",
    "hexadecimal codes that do not show it: those without a letter would be read as other, decimal numbers",
  ],
  ["capture-interval", "the time between samples where no column has it: without it there is no frequency"],
  [
    "capture-interval-disagrees",
    "a sample interval in the header that the time column contradicts: frequencies go with it",
  ],
  ["capture-json", "a JSON record that lacks a key, or has one of another kind"],
  ["capture-last-line-cut", "a last line without its end: half a number looks like another one, so it is left out"],
  ["capture-line-too-long", "a line that is no row: binary data, or a file without line ends"],
  ["capture-long-row", "rows with more columns than the others: a separator inside a number moves all that follows"],
  ["capture-missing", "empty places in a channel: they are gaps and not zeros"],
  ["capture-not-a-number", "words where a number stands elsewhere: left out as a gap, never guessed"],
  ["capture-not-text", "bytes that are no text: another export of the instrument is needed"],
  ["capture-over-range", "marks of the instrument for a value outside its range: the peak is not in the record"],
  ["capture-row-without-time", "rows whose time is empty: left out"],
  ["capture-rows-missing", "jumps in the time column: what lies between is a gap"],
  ["capture-second-time", "two columns that may both be the time: one was taken"],
  ["capture-short-row", "rows with fewer columns than the others: what is missing is a gap"],
  ["capture-shorter-than-announced", "fewer rows than the header says: the file was cut short"],
  ["capture-text-after-rows", "words after the last row: not read"],
  ["capture-text-line", "words between rows: not read"],
  [
    "capture-time-falls",
    "times that fall throughout: the file begins with its last sample, and its rows are turned round",
  ],
  ["capture-time-backwards", "a time that falls: rows swapped, or two records in one file"],
  ["capture-time-missing", "a time column with holes"],
  [
    "capture-time-rounded",
    "times with too few digits to tell the samples apart: even spacing is taken between first and last",
  ],
  ["capture-time-stands-still", "equal times in a row: a step of the column coarser than the samples"],
  ["capture-time-uneven", "samples that are not evenly spaced: frequencies are read on an even grid"],
  [
    "capture-time-without-unit",
    "a time without its unit: seconds were taken, and a factor of a thousand would be seen at once",
  ],
  ["capture-too-few-rows", "fewer rows than a burst needs"],
  ["capture-too-long", "more samples than are read at once"],
  ["capture-too-wide", "a line of hundreds of cells: a record that lies on its side, or a file without line ends"],
  ["capture-unit-unknown", "a unit that is not known here: the channel's shape counts, its height does not"],
  ["capture-wav", "a sound file of a kind that is not read"],
  ["capture-without-channel", "a table with a time and nothing else"],
  ["capture-without-numbers", "a file in which no column is numbers"],
  ["capture-without-time", "a table without a time column or a sample interval"],
];

/** By what a record shows, before any coil is thought of. */
const records: readonly (readonly [string, string])[] = [
  ["record-carrier-may-be-folded", "a carrier near half the sample rate: it may be a higher one folded down"],
  ["record-clipped", "a peak cut flat at the converter's end: height, decay and harmonics beside it are wrong"],
  ["record-coarse", "a burst in too few of the converter's levels: every interval is wider by it"],
  ["record-cuts-burst", "a burst that the record's ends cut: its on-time or its decay is not whole"],
  [
    "record-decay-not-exponential",
    "a ring-down that is no sum of steady decays: a spark or a bridge changes it, and Q means little",
  ],
  ["record-drift", "a mean that moves through the record: a probe that warms, or a coupling that is not direct"],
  [
    "record-folded-line",
    "a harmonic of the carrier folded at half the sample rate: a line in the spectrum that is not there",
  ],
  ["record-gaps", "samples that are missing inside a burst"],
  ["record-offset", "a mean far from zero at rest: it takes a part of the converter's range"],
  ["record-on-time-unread", "a drive whose end does not show: no gate, no bridge, and no change in the signal"],
  ["record-on-time-varies", "bursts of unlike length in one record: the figure is their mean"],
  ["record-one-burst", "one burst alone: it says nothing of the repetition rate"],
  ["record-over-range", "samples that the instrument marked as outside its range"],
  ["record-repetition-uneven", "starts that are not evenly spaced: a song, or a trigger that slips"],
  ["record-sampled-too-slowly", "fewer samples a cycle than the carrier needs"],
  [
    "record-secondary-alone",
    "a ring-down behind the return of energy to the bus: the secondary with the primary open, no pole of the pair",
  ],
  ["record-without-decay", "a record that shows no free decay: poles and Q cannot be read"],
  ["record-without-signal", "a channel that shows nothing but noise"],
];

/** By what a fit needs and what it leaves. */
const fits: readonly (readonly [string, string])[] = [
  ["match-bus-unknown", "a primary current without the bus voltage that drove it: its height says nothing of the coil"],
  [
    "match-driven-evenly",
    "a bridge that was driven at one frequency, as by a generator, where the file says that it follows the coil: carrier and heights are read so",
  ],
  ["match-made-up", "a record that was made up for practice: nothing of it is taken over as measured"],
  ["match-nothing-read", "a record without ring-down, carrier or first half-cycles: there is nothing to compare"],
  [
    "match-poor",
    "a fit whose χ² stays above five for each thing seen: no cause that is known here explains the records, and nothing is adopted",
  ],
  ["match-state-assumed", "a record of which nobody said how it was made: what was assumed moves every fitted figure"],
  [
    "match-length-without-streamer",
    "a streamer that was seen where the predicted burst does not break out: its length tells nothing",
  ],
];

export const benchRules: readonly BenchRule[] = [
  ...files.map(of("common-practice")),
  ...records.map(of("record-phase", ["capture.carrier"])),
  ...fits.map(of("bench-match", ["capture.carrier", "capture.q", "capture.onTime"])),
];
