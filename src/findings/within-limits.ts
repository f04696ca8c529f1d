/** Bursts inside the interrupter's limits, at the stated mains or below, that reach further or ring higher than the ones at their corner. */
import type { Coil } from "../description/coil.ts";
import type { BurstSetting, BurstStudy } from "../workbench/burst-contract.ts";
import { type BurstSketch, sketch } from "../workbench/burst-sketch.ts";
import type { TrainStart } from "../workbench/burst-train.ts";
import type { Solution } from "../workbench/contract.ts";
import { type Limits, rateWithin, settingUnlit, shortestOfNote } from "./limits.ts";

/** What may be greatest elsewhere than at the corner. */
const measures = ["reach", "topVoltage", "streamerPower"] as const;
type Measures = Pick<BurstSketch, (typeof measures)[number]>;

interface Sketched {
  readonly setting: BurstSetting;
  readonly made: BurstSketch;
}

/** A place in the permitted range: length of the burst from shortest (0) to longest (1), share of its highest rate, share of the mains. */
type Place = readonly [length: number, rate: number, mains: number];

/** Bursts that a search may take: of a coil that trips, whose reach jumps where it no longer does, and of one that does not. */
const mostSketches = { tripping: 30, steady: 10 };
/** First steps of the refinement, and the part of them at which it stops. */
const firstStep: Place = [0.2, 0.1, 0.1];
const finest = 0.12;
const least: Place = [0, 0.2, 0.2];
/** From the corner along each axis. */
const lengths: readonly Place[] = [0.5, 0].map((one) => [one, 1, 1]);
const rates: readonly Place[] = [0.75, 0.4].map((one) => [1, one, 1]);
const lessMains = {
  tripping: [0.88, 0.76, 0.66, 0.57, 0.48, 0.4, 0.33, 0.27].map((one): Place => [1, 1, one]),
  steady: [0.85].map((one): Place => [1, 1, one]),
};
/** Part by which a burst must exceed those that are known to be studied too. */
const worthStudying = 0.002;

/**
 * Settings inside the limits whose reach, top voltage or power is greater than that of others.
 *
 * A shorter burst at a higher rate may reach further than the longest one. A lower mains may, where the overcurrent trip then cuts the burst short
 * later or not at all, or where a shorter channel loads the top less: neither may make the line shorter. So the whole of what is permitted is searched
 * by steps that grow finer around the best, from several beginnings.
 *
 * @param than  bursts that are studied anyway
 * @returns     each at most once; empty where none of them goes beyond
 */
export function settingsBeyond(
  nominal: Coil,
  solution: Solution,
  setting: BurstSetting,
  than: readonly BurstStudy[],
): readonly { readonly coil: Coil; readonly setting: BurstSetting }[] {
  const coil = withTripHigh(nominal);
  if (than.some(({ reached, train }) => reached !== "endTime" || train === undefined)) return [];
  const known = than.map(measuresOf);
  const tried = [...searched(coil, solution, setting), ...unlitTurnedDown(coil, solution, setting, than)];
  const worst = measures.flatMap((measure) => {
    const most = Math.max(0, ...known.map((one) => one[measure]));
    const best = greatestBy(tried, measure);
    return best !== undefined && best.made[measure] > (1 + worthStudying) * most ? [best.setting] : [];
  });
  return [...new Set(worst)].map((one) => ({ coil, setting: one }));
}

/** Part by which a trip may stand too high: ratio, burden and comparator together. Common practice, no source. */
const tripDoubt = 0.05;

function withTripHigh(coil: Coil): Coil {
  const { feedback } = coil;
  if (feedback?.overcurrent === undefined) return coil;
  return { ...coil, feedback: { ...feedback, overcurrent: (1 + tripDoubt) * feedback.overcurrent } };
}

/**
 * A burst that was found beyond others, at the same place in the permitted range of a coil that was moved a little: the search again would take
 * many bursts and find it near by.
 *
 * @param found  of the coil as it was, `own` its burst at the setting
 */
export function sameAgain(
  { was, coil: moved }: { readonly was: Coil; readonly coil: Coil },
  { found, own }: { readonly found: BurstStudy; readonly own: BurstStudy },
): { readonly coil: Coil; readonly setting: BurstSetting } {
  const coil = withTripHigh(moved);
  const { onTime, rate, streamer, busVoltage } = found.setting;
  const mains = busVoltage / own.setting.busVoltage;
  const [before, now] = [was.interrupter?.limits, moved.interrupter?.limits];
  if (before === undefined || now === undefined) return { coil, setting: { streamer, mains } };
  const lasts = (onTime / before.onTime) * now.onTime;
  const often = (rate / rateWithin(before, onTime)) * rateWithin(now, lasts);
  return { coil, setting: { onTime: lasts, rate: often, streamer, mains } };
}

function measuresOf({ figures }: BurstStudy): Measures {
  const length = figures.get("burst.streamerLength");
  return {
    reach: length?.high ?? length?.value ?? 0,
    topVoltage: figures.get("burst.peakTopVoltage")?.value ?? 0,
    streamerPower: figures.get("burst.streamerPower")?.value ?? 0,
  };
}

function greatestBy(all: readonly Sketched[], measure: keyof Measures): Sketched | undefined {
  return all.reduce<Sketched | undefined>(
    (found, one) => (found === undefined || one.made[measure] > found.made[measure] ? one : found),
    undefined,
  );
}

/** All that was tried in search of the furthest reach. */
function searched(coil: Coil, solution: Solution, setting: BurstSetting): readonly Sketched[] {
  const limits = coil.interrupter?.limits;
  const known = new Map<string, Sketched>();
  const at = (place: Place): Sketched | undefined => {
    const key = place.map((one) => one.toFixed(6)).join(" ");
    const before = known.get(key);
    if (before !== undefined || known.size >= most) return before;
    const there = settingAt(place, limits, setting);
    const made = sketch(coil, solution, there, near);
    if (made === undefined) return undefined;
    near = kind === "steady" && !made.tripped ? made.start : undefined;
    known.set(key, { setting: there, made });
    return known.get(key);
  };
  let most = 1;
  let near: TrainStart | undefined;
  let kind: keyof typeof mostSketches | undefined;
  const reachAt = (place: Place) => at(place)?.made.reach ?? 0;
  const corner = at([1, 1, 1]);
  kind = corner?.made.tripped ? "tripping" : "steady";
  most = mostSketches[kind];
  const byLength = limits !== undefined && shortestOfNote(limits) < limits.onTime;
  // A channel that wants more energy is longest where there is most of it.
  const more = corner?.made.wantsEnergy === false;
  const axes = [...(more ? [2] : []), ...(byLength ? [0] : []), ...(more && limits ? [1] : [])];
  const begins = [
    [1, 1, 1] as const,
    ...(byLength ? lengths : []),
    ...(more ? lessMains[kind] : []),
    ...(more && limits ? rates : []),
  ];
  let best: Place = begins.reduce((found, place) => (reachAt(place) > reachAt(found) ? place : found), [
    1, 1, 1,
  ] as Place);
  for (let part = 1; part >= finest && known.size < most; ) {
    const now = reachAt(best);
    const better = axes
      .flatMap((axis) => [-1, 1].map((way) => moved(best, axis, way * part * firstStep[axis]!)))
      .find((place) => reachAt(place) > now);
    if (better === undefined) part /= 2;
    else best = better;
  }
  return [...known.values()];
}

const moved = (place: Place, axis: number, by: number): Place =>
  place.map((one, index) => (index === axis ? Math.min(1, Math.max(least[axis]!, one + by)) : one)) as unknown as Place;

function settingAt([length, share, mains]: Place, limits: Limits | undefined, setting: BurstSetting): BurstSetting {
  const turned = mains === 1 ? setting : { ...setting, mains };
  if (limits === undefined) return turned;
  const onTime = limits.onTime * (shortestOfNote(limits) / limits.onTime) ** (1 - length);
  return { ...turned, onTime, rate: share * rateWithin(limits, onTime) };
}

/** Steps by which the mains are turned down, the least share of it, and how often the last step is halved. */
const mainsStep = 0.8;
const leastMains = 0.2;
const halvings = 5;

/** The burst without breakout, where it trips: with less mains, down to where it does not, and there as near to the trip as a few halvings come. */
function unlitTurnedDown(
  coil: Coil,
  solution: Solution,
  setting: BurstSetting,
  than: readonly BurstStudy[],
): readonly Sketched[] {
  const dark = settingUnlit(coil, setting);
  if (dark === undefined || !than.some((one) => !one.setting.streamer && one.tripTime !== undefined)) return [];
  const found: Sketched[] = [];
  const trips = (mains: number): boolean => {
    const there = { ...dark, mains };
    const made = sketch(coil, solution, there);
    if (made !== undefined) found.push({ setting: there, made });
    return made?.tripped ?? false;
  };
  let over = 1;
  let under = mainsStep;
  while (under > leastMains && trips(under)) [over, under] = [under, under * mainsStep];
  for (let halving = 0; halving < halvings; halving++) {
    const middle = (over + under) / 2;
    if (trips(middle)) over = middle;
    else under = middle;
  }
  return found;
}
