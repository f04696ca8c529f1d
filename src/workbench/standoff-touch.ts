/** What a person who touches would carry: one spark, what an arc rectifies, and the carrier. Information on why it hurts, never a permission. */
import { type Figure, figure } from "../catalogue/figure.ts";
import {
  asymmetries,
  bodyResistance,
  bodyThresholds,
  burstLines,
  chargePerBurst,
  contactLevels,
  dischargeFelt,
  dischargePulse,
  excitationRatio,
  fibrillationCharge,
  reactionWeight,
  skinDepth,
  tissueAt,
  tissues,
} from "../safety/index.ts";
import type { Ampere, Hertz } from "../units/si.ts";
import type { Solution } from "./contract.ts";
import type { Span, StandoffBursts, StandoffTouch, TouchBand, TouchThreshold } from "./standoff-contract.ts";
import { touchFirst, touchIsNot, touchObjects } from "./standoff-touch-words.ts";
import { hardest, operatingFrequency, worst, worstStudy } from "./standoff-worst.ts";

/** Lines of the spectrum are followed up to here: nerves and muscle answer best to 50–1000 Hz. */
const lowest: Hertz = 1000;
/** Impedance of a body taken high [Ω], for the other end of an interval. From memory. */
const softBody = 1000;
/** What studies of muscle differ by, as a factor of the depth; a warm conductor over one at 20 °C. From memory. */
const depthSpan = { muscle: 1.2, copper: 1.11 };
/** Contact areas [m²]. Common practice, no source. */
const contactAreas = [
  { name: "root of a spark, 1 mm across", area: 0.8e-6 },
  { name: "fingertip, dry", area: 1e-4 },
  { name: "hand around a rod or a wet glove", area: 50e-4 },
];

export function touchOf(solution: Solution, bursts: StandoffBursts): StandoffTouch {
  const carrier = carrierCurrent(solution, bursts);
  const at = operatingFrequency(solution, bursts);
  const bands = carrier && at ? [...lowBands(carrier, bursts), carrierBand(carrier, at.frequency)] : [];
  const train = carrier && trainOf(carrier, bursts);
  const pulse = pulseOf(solution, bursts);
  return {
    first: touchFirst,
    ...(pulse ? { pulse } : {}),
    bands,
    lines: train ? burstLines({ ...train, peak: carrier.value, asymmetry: asymmetries[1], upTo: lowest }) : [],
    ...(train
      ? {
          chargePerBurst: overAsymmetries(carrier, (peak, asymmetry) =>
            chargePerBurst({ peak, asymmetry, onTime: train.onTime }),
          ),
        }
      : {}),
    ...(at
      ? { excitation: { nerve: excitationRatio(at.frequency, "nerve"), heart: excitationRatio(at.frequency, "heart") } }
      : {}),
    depths: at ? depthsAt(at.frequency) : [],
    objects: touchObjects,
    contacts:
      carrier === undefined
        ? []
        : contactAreas.map(({ name, area }) => ({ name, area, density: carrier.high / Math.SQRT2 / area })),
    not: touchIsNot,
  };
}

/**
 * Peak carrier through somebody whom the arc reaches [A]: top voltage over the streamer's impedance. The upper end is all that the base of the
 * winding carries: whoever touches the top itself takes that, and more where the primary's energy comes after it.
 */
function carrierCurrent({ figures }: Solution, bursts: StandoffBursts): Span | undefined {
  const voltage = worst(bursts, "burst.peakTopVoltage");
  const perVolt = figures.get("secondary.baseCurrentPerVolt")?.value;
  if (voltage === undefined || perVolt === undefined || !(voltage.high > 0)) return undefined;
  const high = perVolt * voltage.high;
  const study = worstStudy(bursts, "burst.streamerResistance");
  const channel = study.figures.get("burst.streamerResistance");
  if (channel === undefined) return { value: high, low: 0, high };
  // Resistance and capacitance of the channel are alike in size, one behind the other.
  const impedance = (resistance: number) => Math.SQRT2 * resistance;
  const value = Math.min(high, voltage.value / impedance(channel.value));
  return { value, low: Math.min(value, voltage.low / impedance(channel.high ?? channel.value)), high };
}

function trainOf(_carrier: Span, { study }: StandoffBursts): { onTime: number; rate: number } | undefined {
  const { onTime, rate } = study.setting;
  return onTime > 0 && rate > 0 && onTime * rate <= 1 ? { onTime, rate } : undefined;
}

/** At the middle asymmetry, from the least asymmetry of the least carrier to the greatest of the greatest. */
function overAsymmetries(carrier: Span, of: (peak: Ampere, asymmetry: number) => number): Span {
  const [least, middle, greatest] = asymmetries;
  return {
    value: of(carrier.value, middle),
    low: of(carrier.low, least),
    high: of(carrier.high, greatest),
  };
}

function lowBands(carrier: Span, bursts: StandoffBursts): readonly TouchBand[] {
  const train = trainOf(carrier, bursts);
  if (train === undefined) return [];
  const most = hardest(bursts);
  const lines = (peak: Ampere, asymmetry: number, upper: boolean) =>
    burstLines({
      ...(upper && most.onTime * train.rate <= 1 ? { onTime: most.onTime, rate: train.rate } : train),
      peak,
      asymmetry,
      upTo: Math.max(lowest, train.rate),
    });
  const rms = (of: ReturnType<typeof lines>) =>
    Math.sqrt(of.slice(1).reduce((sum, { current }) => sum + current ** 2 / 2, 0));
  const band = (
    id: TouchBand["id"],
    says: string,
    frequency: Hertz,
    take: (of: ReturnType<typeof lines>) => Ampere,
  ): TouchBand => {
    const [least, middle, greatest] = asymmetries;
    const current = {
      value: take(lines(carrier.value, middle, false)),
      low: take(lines(carrier.low, least, false)),
      high: take(lines(carrier.high, greatest, true)),
    };
    return {
      ...judged({ id, says, frequency, current }),
      byAsymmetry: asymmetries.map((asymmetry) => ({
        asymmetry,
        current: take(lines(carrier.value, asymmetry, false)),
      })),
    };
  };
  return [
    band("direct", "direct current that the arc rectifies", 0, (of) => of[0]!.current),
    band("line1", "line at the repetition rate", train.rate, (of) => of[1]!.current / Math.SQRT2),
    band("audible", "all lines to 1 kHz together, judged as if at the rate", train.rate, rms),
  ];
}

const carrierBand = (carrier: Span, frequency: Hertz): TouchBand =>
  judged({
    id: "carrier",
    says: "carrier, inside the burst",
    frequency,
    current: {
      value: carrier.value / Math.SQRT2,
      low: carrier.low / Math.SQRT2,
      high: carrier.high / Math.SQRT2,
    },
  });

function judged(parts: Pick<TouchBand, "id" | "says" | "frequency" | "current">): TouchBand {
  const { frequency, current } = parts;
  return {
    ...parts,
    thresholds: bodyThresholds(frequency).map(
      ({ effect, span, source }): TouchThreshold =>
        span === undefined
          ? { effect, verdict: "no published threshold", source }
          : { effect, span, verdict: current.high > span[0] ? "over" : "under", source },
    ),
    ...(frequency > 0 && frequency <= 1e6 ? { reactionWeight: reactionWeight(frequency) } : {}),
    contactLevels: (frequency > 0 ? contactLevels(frequency) : []).map((one) => ({
      ...one,
      over: current.high > one.level,
    })),
  };
}

function pulseOf({ figures }: Solution, bursts: StandoffBursts): StandoffTouch["pulse"] {
  const capacitance = figures.get("topload.capacitanceInPlace")?.value;
  const voltage = worst(bursts, "burst.peakTopVoltage")?.high;
  if (capacitance === undefined || voltage === undefined || !(voltage > 0)) return undefined;
  const pulse = dischargePulse({ capacitance, voltage });
  const context = fibrillationCharge(pulse.duration);
  return {
    ...pulse,
    capacitance,
    voltage,
    ...dischargeFelt,
    ...(context === undefined ? {} : { fibrillationCharge: context }),
  };
}

const depthsAt = (frequency: Hertz): StandoffTouch["depths"] => [
  ...tissues.map((tissue) => {
    const { penetrationDepth, conductivity } = tissueAt(tissue, frequency);
    return { tissue, depth: penetrationDepth, conductivity, source: "gabriel-1996" as const };
  }),
  { tissue: "copper", depth: skinDepth(frequency), conductivity: 58e6, source: "skin-effect-bessel" as const },
];

export function touchFigures(touch: StandoffTouch, solution: Solution, bursts: StandoffBursts): Figure[] {
  const { pulse, bands, chargePerBurst: charge, depths } = touch;
  const at = operatingFrequency(solution, bursts);
  const depth = (of: string) => depths.find(({ tissue }) => tissue === of)?.depth;
  const [muscle, copper] = [depth("muscle"), depth("copper")];
  const never = "informative, never a permission";
  const least = worst(bursts, "burst.peakTopVoltage")?.low;
  const softest =
    pulse && least !== undefined
      ? dischargePulse({ capacitance: pulse.capacitance, voltage: least, resistance: softBody })
      : undefined;
  const train = ["burst.peakTopVoltage", "burst.streamerResistance", "secondary.baseCurrentPerVolt"];
  const banded = bands.map(({ id, current }) =>
    figure(`standoff.touch.${id}`, current.value, {
      from: id === "carrier" ? train : ["standoff.touch.carrier", "interrupter.onTime", "interrupter.rate"],
      source: id === "carrier" ? "burst-simulation" : "arc-demodulation",
      low: current.low,
      high: current.high,
      note: `${never}; the upper end counts`,
    }),
  );
  return [
    ...(pulse && softest
      ? [
          { id: "pulsePeak", value: pulse.peak, low: softest.peak, high: pulse.peak },
          { id: "pulseDuration", value: pulse.duration, low: pulse.duration, high: softest.duration },
          { id: "pulseSquareTime", value: pulse.squareTime, low: softest.squareTime, high: pulse.squareTime },
        ].map(({ id, value, low, high }) =>
          figure(`standoff.touch.${id}`, value, {
            from: ["topload.capacitanceInPlace", "burst.peakTopVoltage"],
            source: "capacitor-discharge",
            low,
            high,
            note: `${never}; ${bodyResistance} Ω, at the other end ${softBody} Ω, neither inductance nor spark in the way`,
          }),
        )
      : []),
    ...banded,
    ...(charge
      ? [
          figure("standoff.touch.chargePerBurst", charge.value, {
            from: ["standoff.touch.carrier", "interrupter.onTime"],
            source: "arc-demodulation",
            low: charge.low,
            high: charge.high,
            note: `${never}; felt from 0.1–0.5 µC at a finger, from memory`,
          }),
        ]
      : []),
    ...(muscle !== undefined && copper !== undefined && at
      ? [
          figure("standoff.touch.muscleDepth", muscle, {
            from: [at.from],
            source: "gabriel-1996",
            low: muscle / depthSpan.muscle,
            high: muscle * depthSpan.muscle,
            crossChecks: [
              {
                name: "skin depth by conduction alone",
                value: skinDepth(at.frequency, tissueAt("muscle", at.frequency).conductivity),
                validity: "a few per cent off where displacement current counts",
                valid: true,
                source: "skin-effect-bessel",
              },
            ],
            note: "a limb is under 0.1 m thick: the current fills it",
          }),
          figure("standoff.touch.copperDepth", copper, {
            from: [at.from],
            source: "skin-effect-bessel",
            low: copper,
            high: copper * depthSpan.copper,
            note: "the upper end is for a warm conductor",
          }),
        ]
      : []),
  ];
}
