/** How loud it is, where, and for how long an ear may be there before a published daily dose is full. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import { acousticShare, crestOfClicks, distanceOfFullDose, soundLevel, timeToFullDose } from "../safety/index.ts";
import type { Metre, Second, Watt } from "../units/si.ts";
import type { Span, StandoffBursts, StandoffNoise, StandoffProgramme } from "./standoff-contract.ts";
import { hardest, worst } from "./standoff-worst.ts";

/** Over a hard floor sound spreads into half the space: 3 dB more than all round. */
const floorGain = 3;
/** What a meter and a room may be off by [dB]. Common practice, no source. */
const meterDoubt = 3;
/** Length of a click [s]. From memory. */
const click: Second = 0.3e-3;

export interface Loudness {
  /** dB(A) in the open, all round. */
  readonly levelAt1m: Span;
  readonly measured: boolean;
  readonly duration: Second | undefined;
  readonly from: readonly string[];
  readonly notes: readonly string[];
  readonly crest: number;
}

/** Undefined where neither a burst nor a measured level says anything. */
export function loudnessOf(
  coil: Coil,
  bursts: StandoffBursts,
  programme: StandoffProgramme | undefined,
): Loudness | undefined {
  const { show, site } = coil;
  const duration = programme?.duration ?? show?.duration;
  const { rate } = bursts.study.setting;
  const crest = rate > 0 ? crestOfClicks({ pulse: click, rate }) : 0;
  const indoors =
    site.wall || site.ceiling || (show?.room && show.room.airing !== "open")
      ? ["indoors the room's echo adds to this, far from the coil most of all: measure there"]
      : [];
  if (show?.noise) {
    const level = show.noise.level + 20 * Math.log10(show.noise.at) - floorGain;
    return {
      levelAt1m: { value: level, low: level - meterDoubt, high: level + meterDoubt },
      measured: true,
      duration,
      from: ["show.noise.level", "show.noise.at"],
      notes: ["from the measured level: it holds for the setting and the place that it was measured at", ...indoors],
      crest,
    };
  }
  const power = sparkPower(bursts);
  if (power === undefined) return undefined;
  const duty = programme?.meanDuty ?? show?.duty;
  const set = bursts.study.setting.onTime * rate;
  const played = duty === undefined || !(set > 0) ? 1 : duty / set;
  const played2 = duty === undefined ? 1 : duty / hardest(bursts).duty;
  const levelOf = (watts: Watt, share: number) => soundLevel({ power: watts, share, distance: 1, spread: "free" });
  const [middle, most] = [played * power.now, played2 * power.most];
  return {
    levelAt1m: {
      value: levelOf(middle, acousticShare.middle),
      low: levelOf(middle, acousticShare.low),
      high: Math.max(levelOf(most, acousticShare.high), levelOf(middle, acousticShare.high)),
    },
    measured: false,
    duration,
    from: [power.id, "interrupter", ...(duty === undefined ? [] : [programme ? "programme.meanDuty" : "show.duty"])],
    notes: [
      "ten decibels either way, since the part of a spark's energy that becomes sound is contested: one measured level replaces it",
      ...(power.lit
        ? []
        : ["the top does not break out at this setting; taken as if all that the bus gives went into sparks"]),
      ...indoors,
    ],
    crest,
  };
}

/** Power into the sparks: at the setting, and at the hard limits; all that the bus gives where the top stays dark. */
function sparkPower(bursts: StandoffBursts): { now: Watt; most: Watt; id: string; lit: boolean } | undefined {
  const streamer = worst(bursts, "burst.streamerPower");
  if (streamer !== undefined && streamer.value > 0) {
    return { now: streamer.value, most: streamer.high, id: "burst.streamerPower", lit: true };
  }
  const { rate } = bursts.study.setting;
  const energy = worst(bursts, "burst.energyDrawn");
  if (energy === undefined || !(energy.value > 0) || !(rate > 0)) return undefined;
  return { now: energy.value * rate, most: energy.high * hardest(bursts).rate, id: "burst.energyDrawn", lit: false };
}

/** dB(A) at a distance over a hard floor. */
export function levelAt({ levelAt1m }: Loudness, distance: Metre): Span {
  const change = floorGain - 20 * Math.log10(distance);
  return { value: levelAt1m.value + change, low: levelAt1m.low + change, high: levelAt1m.high + change };
}

/** Distance from the axis at which the duration fills the dose at the upper end of the level; undefined without a duration. */
export const doseDistance = ({ levelAt1m, duration }: Loudness): Metre | undefined =>
  duration === undefined ? undefined : distanceOfFullDose({ levelAt1m: levelAt1m.high + floorGain, duration });

/** Times turn round: the loud end is the short one. */
const timesAt = ({ value, low, high }: Span, rule: Parameters<typeof timeToFullDose>[1]): Span => ({
  value: timeToFullDose(value, rule),
  low: timeToFullDose(high, rule),
  high: timeToFullDose(low, rule),
});

export function noiseAt(loudness: Loudness, line: Metre | undefined): StandoffNoise {
  const { levelAt1m, measured, duration, notes, crest } = loudness;
  const common = { levelAt1m, measured, crest, notes, ...(duration === undefined ? {} : { duration }) };
  if (line === undefined) return common;
  const levelAtLine = levelAt(loudness, line);
  const timeToFullDose = timesAt(levelAtLine, "niosh-98-126");
  return {
    ...common,
    levelAtLine,
    timeToFullDose,
    timeToFullDoseByOsha: timesAt(levelAtLine, "osha-1910-95"),
    ...(duration === undefined ? {} : { dose: duration / timeToFullDose.low }),
  };
}

export function noiseFigures(loudness: Loudness, line: Metre | undefined): Figure[] {
  const { levelAt1m, measured, from, notes } = loudness;
  const note = notes.join("; ");
  const source = measured ? ("show-noise-measured" as const) : ("spark-loudness" as const);
  const distance = doseDistance(loudness);
  const spanned = (id: string, span: Span, parts: Parameters<typeof figure>[2]) =>
    figure(id, span.value, { ...parts, low: span.low, high: span.high });
  const atLine =
    line === undefined
      ? []
      : [
          spanned("standoff.noise.levelAtLine", levelAt(loudness, line), {
            from: ["standoff.noise.levelAt1m", "standoff.audience"],
            source,
            note,
          }),
          spanned("standoff.noise.timeTo100Percent", timesAt(levelAt(loudness, line), "niosh-98-126"), {
            from: ["standoff.noise.levelAtLine"],
            source: "niosh-98-126",
            note: "the short end counts; hearing protection for operator and first rows, always",
          }),
        ];
  return [
    spanned("standoff.noise.levelAt1m", levelAt1m, { from, source, note }),
    ...atLine,
    ...(distance === undefined
      ? []
      : [
          figure("standoff.noise.distance", distance, {
            from: ["standoff.noise.levelAt1m", "show.duration"],
            source: "niosh-98-126",
            low: distance / 10 ** ((levelAt1m.high - levelAt1m.low) / 20),
            high: distance,
            note: "at the upper end of the level",
          }),
        ]),
  ];
}
