/** What must be known of a record's bursts beside their figures. */
import type { Finding } from "../../catalogue/finding.ts";
import { formatQuantity } from "../../units/format.ts";
import type { RecordReading } from "../record.ts";
import { hertz, pathOf, type Read, say } from "./finding-words.ts";

type Figures = Omit<RecordReading, "findings">;

/** Every finding about bursts, repetition, on-time and decay. */
export function burstFindings(figures: Figures, read: readonly Read[]): readonly Finding[] {
  return [...cut(figures), ...repetition(figures), ...onTime(figures), ...decay(figures, read)];
}

function cut({ bursts, channel }: Figures): Finding[] {
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

function repetition({ bursts, repetition: found, channel }: Figures): Finding[] {
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

function onTime({ onTime: found, bursts, channel }: Figures): Finding[] {
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

function decay({ poles, bursts, channel }: Figures, read: readonly Read[]): Finding[] {
  if (channel === undefined || bursts.length === 0) return [];
  const returning = read.find(({ reading }) => reading.drives.some(({ returned }) => returned));
  if (poles === undefined) return [returning === undefined ? noDecay(channel) : energyReturned(returning)];
  const reading = read.find(({ index }) => index === poles.channel)?.reading;
  if (reading?.tones.some((tones) => !tones.steady) === true)
    return [
      say({
        rule: "record-decay-not-exponential",
        path: pathOf(poles.channel),
        what: "the ring-down is no sum of one or two steady decays: its loss or its frequency changes with the voltage, as under a streamer",
        expected: "a decay without spark: a low bus voltage shows the coil alone",
        evidence: ["capture.q", "capture.decayTime", "capture.poles.lower", "capture.poles.upper"],
      }),
    ];
  const [line, second] = poles.is.poles;
  if (returning === undefined || line === undefined || second !== undefined) return [];
  return [
    say({
      rule: "record-secondary-alone",
      path: pathOf(poles.channel),
      what: `after the drive the diodes give the primary's energy back to the bus until its current stops; what rings on at ${hertz(line.frequency.value)} is the secondary alone`,
      expected:
        "two poles only where the bridge holds the primary shorted after the drive, or in a sweep without power",
      evidence: ["capture.q", "capture.decayTime"],
    }),
  ];
}

function noDecay(channel: number): Finding {
  return say({
    rule: "record-without-decay",
    path: pathOf(channel),
    what: "no free decay stands clear of the noise: Q and decay time cannot be read",
    expected: "at least three cycles of ring-down above the noise after the drive",
    evidence: ["capture.q", "capture.decayTime"],
    remedies: [
      "record a pickup loop with a finer vertical scale: after the drive the primary's current is gone at once",
    ],
  });
}

/** The bridge was seen to take energy back, and no line was read behind it. */
function energyReturned({ index, channel: { name, role } }: Read): Finding {
  const ofCurrent = role === "primaryCurrent";
  return say({
    rule: "record-without-decay",
    path: pathOf(index),
    what: ofCurrent
      ? "after the drive the diodes give the primary's energy back to the bus: its current falls along a straight line and stops, which is no decay; Q and decay time cannot be read from it"
      : `after the drive the diodes give energy back to the bus, which is no decay; what rings on in ${name} behind that does not stand clear of the noise: Q and decay time cannot be read`,
    expected: "a channel on which the secondary is seen to ring on after the primary's current has stopped",
    evidence: ["capture.q", "capture.decayTime"],
    remedies: [
      ofCurrent
        ? "record a pickup loop beside the current, until its signal has sunk into the noise"
        : "record the loop with a finer vertical scale and let the drive clip, or drive for a shorter time",
    ],
  });
}
