/** What is wrong with a record, or must be known beside its figures. */
import type { Finding } from "../../catalogue/finding.ts";
import type { BenchRecord } from "../../description/record.ts";
import type { RecordReading } from "../record.ts";
import { burstFindings } from "./burst-findings.ts";
import { channelFindings } from "./channel-findings.ts";
import { hertz, pathOf, type Read, say } from "./finding-words.ts";
import { foldedLines } from "./spectrum.ts";

/** Every finding about a record and its reading, in the order of their weight. */
export function findingsOf(
  record: BenchRecord,
  reading: Omit<RecordReading, "findings">,
  read: readonly Read[],
): readonly Finding[] {
  return [
    ...noSignal(record, read),
    ...read.flatMap((one) => channelFindings(one, record)),
    ...mayBeFolded(record, read),
    ...foldedHarmonics(record, reading, read),
    ...burstFindings(reading, read),
  ];
}

function noSignal(record: BenchRecord, read: readonly Read[]): Finding[] {
  if (read.length > 0 || !record.channels.some(({ role }) => role !== "gate" && role !== "bus" && role !== "audio"))
    return [];
  return [
    say({
      rule: "record-without-signal",
      severity: "fix",
      path: "record",
      what: "no channel swings: no line stands out of its spectrum",
      expected: "a pickup loop, a primary current or the like with at least one burst in the record",
      remedies: ["set the trigger on the burst and the vertical scale so that it fills the screen"],
    }),
  ];
}

/** Coils of the trade run within these; common practice, no source. */
const slowestCoil = 20e3;

const fastestCoil = 1e6;

/** A record sampled too slowly for the fastest coil cannot tell a carrier from one folded down. */
function mayBeFolded({ interval }: BenchRecord, read: readonly Read[]): Finding[] {
  const rate = 1 / interval;
  if (rate / 2 >= fastestCoil) return [];
  return read.flatMap(({ index, channel, reading }) => {
    const seen = reading.rough.frequency * rate;
    const images = Array.from({ length: 12 }, (_, i) => [(i + 1) * rate - seen, (i + 1) * rate + seen])
      .flat()
      .filter((frequency) => frequency >= slowestCoil && frequency <= fastestCoil);
    if (images.length === 0) return [];
    const named = images.slice(0, 3).map(hertz).join(", ");
    return [
      say({
        rule: "record-carrier-may-be-folded",
        path: pathOf(index),
        what: `at ${hertz(rate)} samples a second a carrier of ${named}${images.length > 3 ? ", …" : ""} would look like the ${hertz(seen)} of ${channel.name}`,
        expected: `more than ${hertz(2 * fastestCoil)}, or a coil that is known to run at ${hertz(seen)}`,
        evidence: ["capture.carrier"],
        remedies: ["compare with a record of a shorter time base"],
      }),
    ];
  });
}

function foldedHarmonics(
  { interval }: BenchRecord,
  { spectrum, carrier, channel }: Omit<RecordReading, "findings">,
  read: readonly Read[],
): Finding[] {
  if (spectrum === undefined || carrier === undefined || channel === undefined) return [];
  const name = read.find(({ index }) => index === channel)?.channel.name ?? "";
  return foldedLines(spectrum, { carrier: carrier.is.value, sampleRate: 1 / interval }).map(({ frequency, harmonic }) =>
    say({
      rule: "record-folded-line",
      path: pathOf(channel),
      what: `the line at ${hertz(frequency)} in ${name} is harmonic ${harmonic} of the carrier folded at half the sample rate`,
      expected: `a sample rate above ${hertz(2 * harmonic * carrier.is.value)}, or a filter before the converter`,
    }),
  );
}
