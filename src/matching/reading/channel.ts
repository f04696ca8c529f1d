/** One channel read by itself: its bursts, decays, carrier and spectrum. */
import type { Channel, ChannelRole } from "../../description/record.ts";
import { analyticSignal, envelopeOf } from "../../numerics/analytic-signal.ts";
import { medianOf } from "../../numerics/robust.ts";
import { answersOf } from "./burst-drive.ts";
import { type Burst, burstsOf, type Segments } from "./bursts.ts";
import { carrierOf } from "./carrier.ts";
import { type Converter, converterOf } from "./converter.ts";
import { readDrive } from "./drive-alone.ts";
import type { Usual } from "./drive-search.ts";
import { combined, type Measured } from "./estimate.ts";
import { type FloatingUsual, floatingDrive } from "./floating-drive.ts";
import { type Poles, polesFrom } from "./poles.ts";
import { fitSteady, isLasting } from "./ring-down.ts";
import { type RoughCarrier, roughCarrier } from "./rough-carrier.ts";
import { stretchOf, varianceOf } from "./stretch.ts";
import { type Survey, spans, survey } from "./survey.ts";
import { type BurstTones, type DriveEdges, edgesOfDrive, readTones, type SignalChannel } from "./tones.ts";
import type { Pulse } from "./two-level.ts";
import { windowedCarrier } from "./windowed-drive.ts";

export interface ChannelReading {
  readonly signal: SignalChannel;
  readonly survey: Survey;
  readonly converter: Converter;
  readonly rough: RoughCarrier;
  readonly segments: Segments;
  readonly tones: readonly BurstTones[];
  readonly poles?: Poles;
  /** Edges of the drives of the bursts that were read, where this channel can show them. */
  readonly drives: readonly DriveEdges[];
  /** Mean level of the quiet parts, and how far it moves from the record's beginning to its end, in the channel's unit. */
  readonly offset: number;
  readonly drift: number;
}

/** Bursts whose decays are read; more of them add little. */
const mostBursts = 8;
/** A line must stand out this much from the spectrum about it to be a signal. */
const leastProminence = 12;

/**
 * Reads a channel that swings, burst by burst. Undefined where it holds no signal.
 *
 * @param interval  of the record [s]
 * @param square    false where another channel has shown that no square drive explains the bursts
 * @param plain     whether another channel has shown that a drive without diodes behind it does
 */
export function* readChannel(
  { name, samples, role }: Pick<Channel, "name" | "samples" | "role">,
  { interval, square, plain }: { interval: number; square: boolean; plain: boolean },
): Generator<string, ChannelReading | undefined> {
  yield name;
  const rough = roughCarrier(samples);
  if (rough === undefined || rough.prominence < leastProminence) return undefined;
  const blockSize = Math.max(2, Math.round(0.5 / rough.frequency));
  const surveyed = survey(samples, blockSize);
  const span = spans(surveyed);
  const converter = converterOf(samples, surveyed);
  const segments = burstsOf(span, { blockSize, length: samples.length, step: converter.step });
  const signal: SignalChannel = {
    samples,
    converter,
    span,
    blockSize,
    frequency: rough.frequency,
    floor: segments.floor,
  };
  const read = chosen(segments);
  const found = yield* tonesOf(signal, read, { name, role, square, plain });
  // A primary that gives its energy back stops along a straight line, which is no decay.
  const tones = found.filter(({ steady }) => role !== "primaryCurrent" || steady);
  const known = polesFrom(tones, interval);
  const drives = yield* drivesOf(signal, { name, role, read, tones: known?.tones ?? [], square });
  const poles = role === "primaryCurrent" && drives.some(({ returned }) => returned) ? undefined : known;
  return {
    signal,
    survey: surveyed,
    converter,
    rough,
    segments,
    tones: poles?.tones ?? [],
    drives,
    ...(poles === undefined ? {} : { poles }),
    ...baseline(surveyed, span, segments.floor),
  };
}

/** Bursts in which a bridge that floats is searched for from nothing: one that none of them shows is not in the others. */
const mostSearched = { short: 2, long: 1 };
/** Bursts in which no square drive was found before it is looked for in no more of them: the search takes a second where there is none. */
const mostUnexplained = { short: 2, long: 1 };
/** Records of more samples than this take long enough without it. */
const longRecord = 2_000_000;

/** Bursts one after the other: how one was driven says where to look in the next. */
function* tonesOf(
  signal: SignalChannel,
  bursts: readonly Burst[],
  { name, role, square, plain }: { name: string; role: ChannelRole; square: boolean; plain: boolean },
): Generator<string, readonly BurstTones[]> {
  const tones: BurstTones[] = [];
  let usual: Usual | undefined;
  let floating: FloatingUsual | undefined;
  let unexplained = 0;
  const length = signal.samples.length > longRecord ? "long" : "short";
  const [most, searched] = [mostUnexplained[length], mostSearched[length]];
  for (const [n, burst] of bursts.entries()) {
    yield `${name}, burst ${n + 1} of ${bursts.length}`;
    const looked = square && (usual !== undefined || floating !== undefined || unexplained < most);
    const one = readTones(signal, burst, {
      role,
      square: looked,
      plainFirst: plain || usual !== undefined,
      alikeOnly: n >= searched,
      ...(usual === undefined ? {} : { usual }),
      ...(floating === undefined ? {} : { floating }),
    });
    if (one === undefined) continue;
    if (one.drive === undefined) unexplained++;
    usual = one.drive?.usual ?? usual;
    floating = one.drive?.floating ?? floating;
    tones.push(one);
  }
  return tones;
}

/**
 * The edges that a channel can show. The primary's current shows where the bridge takes energy back instead of driving. Another channel
 * shows no more than where the coil rings free: the drive ended there only if the primary rings on with it, which two poles show.
 */
function* drivesOf(
  signal: SignalChannel,
  {
    name,
    role,
    read,
    tones,
    square,
  }: {
    name: string;
    role: ChannelRole;
    read: readonly Burst[];
    tones: readonly BurstTones[];
    square: boolean;
  },
): Generator<string, readonly DriveEdges[]> {
  const drives: DriveEdges[] = [];
  let usual: FloatingUsual | undefined;
  let unexplained = 0;
  for (const [n, burst] of read.entries()) {
    yield `${name}, drive ${n + 1} of ${read.length}`;
    const free = tones.find((one) => one.burst === burst);
    const explained = free?.drive !== undefined && free.decay.fit.terms.every(isLasting);
    if (free !== undefined && (explained || role !== "primaryCurrent")) {
      if (free.drive !== undefined || free.decay.fit.terms.length === 2) drives.push(free);
      continue;
    }
    const returning =
      square && unexplained < mostUnexplained.short
        ? floatingDrive(signal, burst, {
            role,
            alikeOnly: n >= mostSearched.short,
            ...(usual === undefined ? {} : { usual }),
          })
        : undefined;
    usual = returning?.floating ?? usual;
    if (returning !== undefined) {
      drives.push({ ...edgesOfDrive(returning), gentle: false, returned: true });
      continue;
    }
    unexplained++;
    if (role !== "primaryCurrent") continue;
    // Where the current rings on freely, its fit shows the end most sharply.
    const one = free?.driveEnd === undefined ? readDrive(signal, burst) : free;
    if (one?.driveEnd !== undefined) drives.push(one);
  }
  return drives;
}

/** Bursts spread over the record; those that lie in it whole first. */
function chosen({ bursts }: Segments): readonly Burst[] {
  const whole = bursts.filter(({ cutAtStart, cutAtEnd }) => !cutAtStart && !cutAtEnd);
  const pool = whole.length > 0 ? whole : bursts;
  const loud = medianOf(pool.length === 0 ? [0] : pool.map(({ peak }) => peak));
  const strong = pool.filter(({ peak }) => peak > 0.5 * loud);
  const stride = Math.max(1, strong.length / mostBursts);
  return Array.from({ length: Math.min(mostBursts, strong.length) }, (_, i) => strong[Math.floor(i * stride)]).filter(
    (burst) => burst !== undefined,
  );
}

function baseline({ high, low, mean }: Survey, span: Float32Array, floor: number): { offset: number; drift: number } {
  const quiet = { early: [] as number[], late: [] as number[] };
  const stride = Math.max(1, Math.floor(span.length / 40_000));
  for (let block = 0; block < span.length; block += stride) {
    if (!(span[block]! <= 1.5 * floor) || Number.isNaN(high[block]!)) continue;
    (block < span.length / 2 ? quiet.early : quiet.late).push((high[block]! + low[block]!) / 2);
  }
  if (quiet.early.length < 3 || quiet.late.length < 3) return { offset: mean, drift: 0 };
  const [before, after] = [medianOf(quiet.early), medianOf(quiet.late)];
  return { offset: (before + after) / 2, drift: 2 * (after - before) };
}

/** What a bridge that is no perfect square may leave, as a part of the frequency. */
const fittedDoubt = 5e-6;

/** Cycles by which a drive that only looks even may slip over a burst: standard deviation, from simulated bridges that follow their current. */
const looksEven = 0.08;

/** Mean frequency of the bridge over the bursts that a square explains; undefined where none is. @param interval of the record [s] */
export function fittedCarrier({ drives: own }: ChannelReading, interval: number): Measured | undefined {
  const found = own.flatMap(({ drive }) => drive ?? []);
  const sure = found.filter((drive) => drive.sure);
  const trusted = 2 * sure.length >= own.length;
  const mean = combined(
    (trusted ? sure : found).map(({ frequency: { value, error } }) => ({
      value: value / interval,
      error: Math.hypot(error, fittedDoubt * value) / interval,
      freedom: 60,
    })),
  );
  if (mean === undefined || trusted) return mean;
  // One burst is as far off as the next.
  const length = medianOf(found.map((drive) => drive.length.value)) * interval;
  return { ...mean, error: Math.hypot(mean.error, looksEven / length), freedom: 1e6 };
}

/** Drivers answer a gate late; where a signal alone shows the drive its start may be another half-cycle. */
const slackOf = { gate: { early: 0.15, late: 0.4 }, signal: { early: 1, late: 0.7 } };

/**
 * Mean frequency over the drives of a bridge that follows the primary's current; undefined where that does not explain the bursts.
 *
 * @param drives    when it was driven, in samples
 * @param interval  of the record [s]
 * @param by        what shows the drives
 */
export function followingCarrier(
  { signal, poles, segments, drives: own }: ChannelReading,
  drives: readonly Pulse[],
  { interval, role, by }: { interval: number; role: ChannelRole; by: keyof typeof slackOf },
): Measured | undefined {
  // Without window and second pole too much may be otherwise.
  if (poles === undefined || (by === "signal" && poles.poles.length < 2)) return undefined;
  const peak = segments.bursts.reduce((most, burst) => Math.max(most, burst.peak), 0);
  return windowedCarrier(signal, drives, {
    poles: poles.poles,
    answers: answersOf(role),
    slack: slackOf[by],
    evens: own.flatMap(({ drive }) => (drive?.usual?.by === "even" ? [drive] : [])),
    interval,
    peak,
  });
}

/**
 * Mean frequency of the signal itself over the drives.
 *
 * @param drives    when it was driven, in samples
 * @param interval  of the record [s]
 */
export function signalCarrier(
  { signal, rough }: ChannelReading,
  drives: readonly Pulse[],
  interval: number,
): Measured | undefined {
  const step = Math.max(1, Math.floor(1 / (rough.frequency * perCycle)));
  const cycle = 1 / rough.frequency;
  const { samples, converter } = signal;
  const stride = Math.max(1, Math.ceil(drives.length / mostBursts));
  return combined(
    drives
      .filter((_, i) => i % stride === 0)
      .flatMap(({ from, to }) => {
        const stretch = stretchOf(
          { samples, below: converter.below, above: converter.above },
          { from: from - margin * cycle, to: to + margin * cycle, step },
        );
        const place = (sample: number) => (sample - stretch.from) / step;
        if (stretch.values.length < 8) return [];
        const noise =
          varianceOf(stretch.values.subarray(0, Math.max(0, Math.floor(place(from) - 1)))) ??
          (0.29 * converter.step) ** 2 / step;
        const carrier = carrierOf(stretch, {
          from: place(from),
          to: place(to),
          angular: 2 * Math.PI * rough.frequency * step,
          noise,
          interval,
        });
        return carrier ?? [];
      }),
  );
}

const perCycle = 10;
const margin = 12;

/** Values of a steady signal that its frequency is read from. */
const steadyValues = 4000;

/** Frequencies of a signal without quiet parts, strongest first: one, or two where they are there. */
export function steadyTones({ signal, rough, converter }: ChannelReading, interval: number): readonly Measured[] {
  const step = Math.max(1, Math.floor(1 / (rough.frequency * perCycle)));
  const { samples } = signal;
  const from = Math.max(0, Math.floor((samples.length - steadyValues * step) / 2));
  const { values } = stretchOf(
    { samples, below: converter.below, above: converter.above },
    { from, to: from + steadyValues * step, step },
  );
  const found = fitSteady(values, { decay: 0, angular: 2 * Math.PI * rough.frequency * step });
  if (found === undefined) return [];
  const { fit, variance, freedom } = found;
  const size = 2 * fit.terms.length;
  return fit.terms
    .map((term, k) => ({
      size: Math.hypot(term.real, term.imaginary),
      measured: {
        value: term.angular / (2 * Math.PI * step * interval),
        error: Math.sqrt(variance * fit.covariance[(2 * k + 1) * size + 2 * k + 1]!) / (2 * Math.PI * step * interval),
        freedom,
      },
    }))
    .sort((a, b) => b.size - a.size)
    .map(({ measured }) => measured);
}

export interface EnvelopeTrace {
  /** [s] on the record's own time. */
  readonly time: Float64Array;
  readonly envelope: Float64Array;
}

/** Envelope of one burst, for a plot. */
export function envelopeTrace(
  { signal, rough }: ChannelReading,
  burst: Burst,
  { start, interval }: { start: number; interval: number },
): EnvelopeTrace {
  const step = Math.max(1, Math.floor(1 / (rough.frequency * perCycle)));
  const { values, from } = stretchOf(
    { samples: signal.samples, below: Number.NEGATIVE_INFINITY, above: Number.POSITIVE_INFINITY },
    {
      from: burst.from - (4 * step) / (rough.frequency * step),
      to: Math.min(burst.to, burst.from + 8000 * step),
      step,
    },
  );
  const filled = values.map((value) => (Number.isFinite(value) ? value : 0));
  const centre = rough.frequency * step;
  const envelope =
    filled.length < 4
      ? filled
      : envelopeOf(analyticSignal(filled, { low: 0.5 * centre, high: Math.min(0.5, 1.6 * centre) }));
  return { time: Float64Array.from(values, (_, n) => start + (from + n * step) * interval), envelope };
}
