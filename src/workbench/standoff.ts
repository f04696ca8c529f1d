/** Who must stand where, and what can still hurt: from the bursts of a coil to its line, fields, noise, stored energy, touch and cautions. */
import { type Figure, type Figures, figure } from "../catalogue/figure.ts";
import { quantities } from "../catalogue/quantities.ts";
import { type Standing, sources } from "../catalogue/sources.ts";
import type { Coil } from "../description/coil.ts";
import {
  breakoutPlace,
  decidingCandidate,
  type LineCandidate,
  lowestLine,
  practiceLine,
  type Reach,
  reachLine,
  strikeDistance,
} from "../safety/index.ts";
import { formatQuantity } from "../units/format.ts";
import type { Solution } from "./contract.ts";
import { keepOff } from "./keep-off.ts";
import { cautionsFor, closingWords } from "./standoff-cautions.ts";
import type { CoilPlace, Standoff, StandoffBursts, StandoffProgramme } from "./standoff-contract.ts";
import { type Fields, fieldFigures, fieldsAt, fieldsOf } from "./standoff-fields.ts";
import { hazardLines } from "./standoff-hazards.ts";
import { missingForStandoff } from "./standoff-missing.ts";
import { doseDistance, type Loudness, loudnessOf, noiseAt, noiseFigures } from "./standoff-noise.ts";
import { storedFigures, storedOf } from "./standoff-stored.ts";
import { touchFigures, touchOf } from "./standoff-touch.ts";
import { worst, worstStudy } from "./standoff-worst.ts";

/** Spans of reach, at the middle, within which a coil counts as of the half-metre class [m]. */
const halfMetre = { from: 0.25, to: 0.75 };

/**
 * Stand-off of a coil.
 *
 * Pure. Upper bounds are of the worst of the bursts that are given; lower bounds of thresholds decide. Nothing in it is a permission.
 *
 * @param solution   of the same coil
 * @param bursts     at the setting, at the interrupter's limits, without breakout, and inside the limits beyond these, as `judgedBursts` gives them
 * @param programme  what is to be played; the file's `show` and the interrupter's setting where absent
 * @param lengths    of its words: feet and inches in place of metres
 * @returns          what the file allows: without a burst neither line nor fields, and `missing` says why
 */
export function standoff({
  coil,
  solution,
  bursts,
  programme,
  lengths,
}: {
  coil: Coil;
  solution: Solution;
  bursts: StandoffBursts;
  programme?: StandoffProgramme;
  lengths?: "m" | "in";
}): Standoff {
  const place = breakoutPlace(coil);
  const reach = worst(bursts, "burst.streamerLength");
  const fields = fieldsOf({ coil, solution, bursts, place });
  const loudness = loudnessOf(coil, bursts, programme);
  const candidates = reach === undefined ? [] : candidatesOf({ place, reach, fields, loudness, lengths });
  const decides = decidingCandidate(candidates);
  const line = decides?.distance;
  const stored = storedOf(coil, solution, bursts);
  const touch = touchOf(solution, bursts);
  const noise = loudness && noiseAt(loudness, line);
  const near = fields && line !== undefined ? fieldsAt(fields, line) : undefined;
  const figures = inOrder([
    ...(reach === undefined ? [] : lineFigures({ reach, decides, candidates })),
    ...(fields && line !== undefined ? fieldFigures(fields, line) : []),
    ...(loudness ? noiseFigures(loudness, line) : []),
    ...storedFigures(stored, solution, bursts),
    ...touchFigures(touch, solution, bursts),
  ]);
  const power = worst(bursts, "burst.streamerPower")?.high;
  return {
    figures,
    basis: basisOf(bursts),
    place,
    missing: missingForStandoff(coil, bursts, { computed: line !== undefined, duration: loudness?.duration }),
    line: { candidates, ...(decides ? { decides } : {}) },
    ...(near ? { fields: near } : {}),
    ...(noise ? { noise } : {}),
    stored,
    touch,
    cautions: cautionsFor(coil, {
      ...(reach ? { reach: reach.high } : {}),
      ...(line === undefined ? {} : { audience: line }),
      ...(power === undefined ? {} : { power }),
      ...(near?.emission ? { emission: near.emission } : {}),
      ...(noise ? { noise } : {}),
      ...(lengths ? { lengths } : {}),
    }),
    hazards: hazardLines(coil),
    standing: standingOf(figures),
    closing: closingWords,
  };
}

/** All from the axis: the reach is added to the radius that the arc leaves from. */
function candidatesOf({
  place,
  reach: { value, low, high },
  fields,
  loudness,
  lengths,
}: {
  place: CoilPlace;
  reach: { value: number; low: number; high: number };
  fields: Fields | undefined;
  loudness: Loudness | undefined;
  lengths: "m" | "in" | undefined;
}): readonly LineCandidate[] {
  const reach: Reach = { low, middle: value, high };
  const level = (field: "electric" | "magnetic", who: "public" | "occupational") =>
    fields?.levels.find((one) => one.field === field && one.who === who && one.guards === "nerve");
  const byField = (field: "electric" | "magnetic"): LineCandidate => {
    const found = level(field, "public");
    return {
      id: field,
      says:
        found === undefined
          ? `no reference level of the ${field} field for the public could be compared`
          : `the ${field} field falls to the public reference level of ${formatQuantity(found.level, found.unit, { digits: 3, trim: true })}`,
      distance: found && fields?.distanceOver(found),
      low: found && fields && fields.low[field] ** 0.5 * fields.distanceOver(found),
      source: "icnirp-2010",
    };
  };
  const dose = loudness && doseDistance(loudness);
  return [
    {
      id: "reach",
      says: `twice the reach of up to ${keepOff(high, lengths)}, or the reach and ${keepOff(1.5, lengths)}, from where the arc leaves the coil`,
      distance: place.radius + reachLine(reach),
      low: place.radius + reachLine({ ...reach, high: low }),
      source: "stand-off-practice",
    },
    byField("electric"),
    byField("magnetic"),
    {
      id: "noise",
      says:
        dose === undefined
          ? "the dose of noise is not known: the file gives no show.duration"
          : `${formatQuantity(loudness?.duration ?? 0, "s", { digits: 3, trim: true })} of sparks fill a day's dose of 85 dB(A) over 8 h at the loud end`,
      distance: dose,
      low: dose && loudness && dose / 10 ** ((loudness.levelAt1m.high - loudness.levelAt1m.low) / 20),
      source: "niosh-98-126",
    },
    {
      id: "practice",
      says: "about three metres for a coil of the half-metre class: common practice, no source, and the least line for any coil",
      distance: practiceLine,
      low: practiceLine,
      source: "half-metre-practice",
    },
  ];
}

function lineFigures({
  reach,
  decides,
  candidates,
}: {
  reach: { value: number; low: number; high: number };
  decides: LineCandidate | undefined;
  candidates: readonly LineCandidate[];
}): Figure[] {
  const { value, low, high } = reach;
  const span = { low, middle: value, high };
  const strike = strikeDistance(span);
  const note = "common practice, no source: to a factor of two or three; the upper end is the figure";
  const from = ["burst.streamerLength", "interrupter.limits"];
  const byReach = candidates.find(({ id }) => id === "reach")?.distance;
  return [
    figure("standoff.reach", high, { from, source: "channel-growth", low, high, note }),
    figure("standoff.strike", strike, {
      from: ["standoff.reach"],
      source: "stand-off-practice",
      low: strikeDistance({ ...span, high: low }),
      high: strike,
      note: "from every place where the coil may break out, the winding included",
    }),
    ...(decides?.distance === undefined
      ? []
      : [
          figure("standoff.audience", decides.distance, {
            from: [
              "standoff.reach",
              "burst.peakTopVoltage",
              "burst.peakPrimaryCurrent",
              ...(candidates.some(({ id, distance }) => id === "noise" && distance !== undefined)
                ? ["standoff.noise.levelAt1m", "show.duration"]
                : []),
            ],
            source: decides.source,
            low: Math.min(decides.distance, lowestLine(candidates) ?? decides.distance),
            high: decides.distance,
            note: `decided by: ${decides.says}; a recommendation from upper bounds, no permission: venue and law come first`,
            crossChecks: [
              {
                name: "practice of the half-metre class",
                value: practiceLine,
                validity: "a reach of about half a metre; common practice, no source",
                valid: value >= halfMetre.from && value <= halfMetre.to,
                source: "half-metre-practice",
              },
              ...(byReach === undefined
                ? []
                : [
                    {
                      name: "by reach alone",
                      value: byReach,
                      validity: "the arc alone, fields and noise left out",
                      valid: false,
                      source: "stand-off-practice",
                    },
                  ]),
            ],
          }),
        ]),
  ];
}

function basisOf(bursts: StandoffBursts): string {
  const { setting } = worstStudy(bursts, "burst.streamerLength");
  const at = bursts.study.setting;
  const hard = setting.onTime > at.onTime || setting.rate > at.rate;
  const share = setting.busVoltage / at.busVoltage;
  const turned =
    share < 0.995 ? ` with the mains at ${formatQuantity(share, "%", { digits: 2 })}, where full mains do less` : "";
  return `in a burst of ${formatQuantity(setting.onTime, "s", { digits: 3, trim: true })} at ${formatQuantity(setting.rate, "Hz", { digits: 3, trim: true })}${turned}${hard ? ", which the interrupter's limits let through" : ""}${setting.streamer ? "" : ", if the top breaks out at a point or a scratch"}`;
}

/** How far each source of the figures may be trusted. */
function standingOf(figures: Figures): Readonly<Record<string, Standing>> {
  const used = new Set([...figures.values()].map(({ source }) => source));
  return Object.fromEntries(
    [...used].flatMap((key) => {
      const found = sources.get(key);
      return found === undefined ? [] : [[key, found.standing]];
    }),
  );
}

/** In the order of the catalogue. */
function inOrder(figures: readonly Figure[]): Figures {
  const made = new Map(figures.map((each) => [each.id, each]));
  return new Map([...quantities.keys()].flatMap((id) => (made.has(id) ? [[id, made.get(id)!] as const] : [])));
}
