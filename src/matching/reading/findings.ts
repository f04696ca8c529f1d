/** What is wrong with a record, or must be known beside its figures. */
import type { Finding, Severity } from "../../catalogue/finding.ts";
import type { BenchRecord, Channel } from "../../description/record.ts";
import { formatQuantity } from "../../units/format.ts";
import type { RecordReading } from "../record.ts";
import type { ChannelReading } from "./channel.ts";
import { foldedLines } from "./spectrum.ts";

interface Read {
  readonly index: number;
  readonly channel: Channel;
  readonly reading: ChannelReading;
}

type Said = Omit<Finding, "evidence" | "remedies" | "severity"> & {
  readonly severity?: Severity;
  readonly evidence?: readonly string[];
  readonly remedies?: readonly string[];
};

function say({ severity = "look", evidence = [], remedies = [], ...rest }: Said): Finding {
  return { ...rest, severity, evidence, remedies: remedies.map((says) => ({ says, edits: [] })) };
}

const pathOf = (index: number) => `record.channels.${index}`;
const hertz = (value: number) => formatQuantity(value, "Hz");
const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;

/** Every finding about a record and its reading, in the order of their weight. */
export function findingsOf(
  record: BenchRecord,
  reading: Omit<RecordReading, "findings">,
  read: readonly Read[],
): readonly Finding[] {
  const figures = read.flatMap((one) => [
    ...clipped(one, record),
    ...nearNyquist(one, record),
    ...coarse(one),
    ...baseline(one),
    ...gaps(one, record),
  ]);
  return [
    ...noSignal(record, read),
    ...figures,
    ...mayBeFolded(record, read),
    ...foldedHarmonics(record, reading, read),
    ...cut(reading),
    ...repetition(reading),
    ...onTime(reading),
    ...decay(reading, read),
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

function clipped({ index, channel, reading }: Read, { length }: BenchRecord): Finding[] {
  const { clipped: count, step } = reading.converter;
  if (count === 0) return [];
  const { least, greatest } = reading.survey;
  return [
    say({
      rule: "record-clipped",
      severity: "fix",
      path: pathOf(index),
      what: `${channel.name} is clipped: ${count} of ${length} samples stand at ${formatQuantity(greatest, channel.unit)} or ${formatQuantity(least, channel.unit)}${step > 0 ? ", the ends of the converter" : ""}; they are left out`,
      expected: "a vertical scale on which the whole burst fits",
      evidence: ["capture.carrier", "capture.q"],
      remedies: ["take the record again with a coarser vertical scale or a smaller loop"],
    }),
  ];
}

/** Above this part of the sample rate a carrier is read from fewer than three samples to a cycle. */
const nearHalf = 0.35;

function nearNyquist({ index, channel, reading }: Read, { interval }: BenchRecord): Finding[] {
  const { frequency } = reading.rough;
  if (frequency < nearHalf) return [];
  return [
    say({
      rule: "record-sampled-too-slowly",
      severity: "fix",
      path: pathOf(index),
      what: `${channel.name} swings at ${hertz(frequency / interval)}, near half the sample rate of ${hertz(1 / interval)}`,
      expected: `at least ten samples to a cycle: ${hertz((10 * frequency) / interval)} or more`,
      evidence: ["capture.carrier"],
      remedies: ["take the record again with a shorter time base or more memory"],
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

/** Fewer levels than these across the signal blur small decays. */
const fewLevels = 48;

function coarse({ index, channel, reading }: Read): Finding[] {
  const { step, levels } = reading.converter;
  if (step === 0 || levels >= fewLevels) return [];
  return [
    say({
      rule: "record-coarse",
      path: pathOf(index),
      what: `${channel.name} spans ${levels} levels of the converter, ${formatQuantity(step, channel.unit)} each`,
      expected: "a burst that fills most of the 256 levels of 8 bits",
      evidence: ["capture.q", "capture.decayTime"],
      remedies: ["take the record again with a finer vertical scale"],
    }),
  ];
}

function baseline({ index, channel, reading }: Read): Finding[] {
  const { offset, drift, segments } = reading;
  const findings: Finding[] = [];
  if (Math.abs(offset) > 0.2 * segments.peak)
    findings.push(
      say({
        rule: "record-offset",
        path: pathOf(index),
        what: `${channel.name} stands at ${formatQuantity(offset, channel.unit)} where it is quiet, its bursts swing by ${formatQuantity(segments.peak, channel.unit)}; the offset is taken away`,
        expected: "a quiet level near zero",
        remedies: ["look at the zero of the channel, or couple it for alternating voltage"],
      }),
    );
  if (Math.abs(drift) > 0.1 * segments.peak)
    findings.push(
      say({
        rule: "record-drift",
        path: pathOf(index),
        what: `the quiet level of ${channel.name} moves by ${formatQuantity(drift, channel.unit)} over the record`,
        expected: "a quiet level that stays",
      }),
    );
  return findings;
}

function gaps({ index, channel, reading }: Read, { length }: BenchRecord): Finding[] {
  const { missing, over } = reading.survey;
  const findings: Finding[] = [];
  if (missing > 0)
    findings.push(
      say({
        rule: "record-gaps",
        path: pathOf(index),
        what: `${channel.name} has no number in ${missing} of ${length} samples (${percent(missing / length)}); they are left out`,
        expected: "a number for every sample",
      }),
    );
  if (over > 0)
    findings.push(
      say({
        rule: "record-over-range",
        severity: "fix",
        path: pathOf(index),
        what: `${channel.name} was over the instrument's range in ${over} of ${length} samples; they are left out`,
        expected: "a vertical scale on which the whole burst fits",
        remedies: ["take the record again with a coarser vertical scale"],
      }),
    );
  return findings;
}

function cut({ bursts, channel }: Omit<RecordReading, "findings">): Finding[] {
  const where = [
    ...(bursts.some(({ cutAtStart }) => cutAtStart) ? ["begins"] : []),
    ...(bursts.some(({ cutAtEnd }) => cutAtEnd) ? ["ends"] : []),
  ];
  if (where.length === 0 || channel === undefined) return [];
  return [
    say({
      rule: "record-cuts-burst",
      path: pathOf(channel),
      what: `the record ${where.join(" and ")} inside a burst; of such a burst start, on-time or decay cannot be read`,
      expected: "quiet before the first burst and after the last",
      remedies: ["move the trigger point, or take a longer record"],
    }),
  ];
}

function repetition({ bursts, repetition: found, channel }: Omit<RecordReading, "findings">): Finding[] {
  if (channel !== undefined && found === undefined && bursts.length > 0) {
    return [
      say({
        rule: "record-one-burst",
        path: pathOf(channel),
        what: `${bursts.length === 1 ? "one burst begins" : "fewer than two bursts begin"} inside the record: it says nothing of the repetition rate`,
        expected: "at least two bursts, better ten",
        evidence: ["capture.repetitionRate"],
        remedies: ["take a second record with a longer time base"],
      }),
    ];
  }
  if (found === undefined || !found.is.uneven) return [];
  const { intervals } = found.is;
  const shortest = intervals.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY);
  const longest = intervals.reduce((most, one) => Math.max(most, one), 0);
  return [
    say({
      rule: "record-repetition-uneven",
      path: pathOf(found.channel),
      what: `the bursts do not come evenly: from ${formatQuantity(shortest, "s")} to ${formatQuantity(longest, "s")} apart; the rate is their mean`,
      expected: "one rate throughout the record",
      evidence: ["capture.repetitionRate"],
    }),
  ];
}

function onTime({ onTime: found, bursts, channel }: Omit<RecordReading, "findings">): Finding[] {
  if (channel === undefined || bursts.length === 0) return [];
  if (found === undefined) {
    return [
      say({
        rule: "record-on-time-unread",
        path: pathOf(channel),
        what: "where the drive begins and ends cannot be read from this record",
        expected:
          "a burst from the quiet before it to the end of its decay, or a channel on the gate or on the bridge's output",
        evidence: ["capture.onTime"],
        remedies: ["record the interrupter's gate on a second channel"],
      }),
    ];
  }
  return found.is.varies
    ? [
        say({
          rule: "record-on-time-varies",
          path: pathOf(found.channel),
          what: "the bursts are not driven for the same time; the on-time is that of the middle one",
          expected: "one on-time throughout the record",
          evidence: ["capture.onTime"],
        }),
      ]
    : [];
}

function decay({ poles, bursts, channel }: Omit<RecordReading, "findings">, read: readonly Read[]): Finding[] {
  if (channel === undefined || bursts.length === 0) return [];
  if (poles === undefined && read.some(({ reading }) => reading.drives.some(({ returned }) => returned))) {
    return [
      say({
        rule: "record-without-decay",
        path: pathOf(channel),
        what: "after the drive the diodes give the primary's energy back to the bus: its current falls along a straight line and stops, which is no decay; Q and decay time cannot be read from it",
        expected: "a channel on which the secondary is seen to ring on after the primary's current has stopped",
        evidence: ["capture.q", "capture.decayTime"],
        remedies: ["record a pickup loop beside the current, until its signal has sunk into the noise"],
      }),
    ];
  }
  if (poles === undefined) {
    return [
      say({
        rule: "record-without-decay",
        path: pathOf(channel),
        what: "no free decay stands clear of the noise: Q and decay time cannot be read",
        expected: "at least three cycles of ring-down above the noise after the drive",
        evidence: ["capture.q", "capture.decayTime"],
        remedies: [
          "record a pickup loop with a finer vertical scale: after the drive the primary's current is gone at once",
        ],
      }),
    ];
  }
  const reading = read.find(({ index }) => index === poles.channel)?.reading;
  const rough = reading?.tones.some((tones) => !tones.steady) === true;
  return rough
    ? [
        say({
          rule: "record-decay-not-exponential",
          path: pathOf(poles.channel),
          what: "the ring-down is no sum of one or two steady decays: its loss or its frequency changes with the voltage, as under a streamer",
          expected: "a decay without spark: a low bus voltage shows the coil alone",
          evidence: ["capture.q", "capture.decayTime", "capture.poles.lower", "capture.poles.upper"],
        }),
      ]
    : [];
}
