/** What is wrong with a channel as the instrument took it. */
import type { Finding } from "../../catalogue/finding.ts";
import type { BenchRecord } from "../../description/record.ts";
import { formatQuantity } from "../../units/format.ts";
import { hertz, pathOf, percent, type Read, say } from "./finding-words.ts";

/** Every finding about one channel alone. */
export function channelFindings(one: Read, record: BenchRecord): readonly Finding[] {
  return [...clipped(one, record), ...nearNyquist(one, record), ...coarse(one), ...baseline(one), ...gaps(one, record)];
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
