/** What the tune aims at, and the tap and the bank that meet it. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Coil, Primary, Tank } from "../description/coil.ts";
import { bracketedRoot } from "../numerics/root.ts";
import { streamerCapacitance } from "../resonator/streamer-load.ts";
import type { Farad, Henry, Hertz, Metre, Ratio } from "../units/si.ts";
import type { PoleTrack } from "./contract.ts";
import type { FieldStage } from "./field-stage.ts";
import { predictedStreamer } from "./predicted-streamer.ts";
import { bankCapacitance, coupledPoint } from "./tank-figures.ts";

/** The search for a tap goes on this far beyond the turns wound. */
const turnsBeyond = 12;
const trackPoints = 61;

export function tuningFigures({
  coil,
  primary,
  tank,
  stage,
}: {
  coil: Coil;
  primary: Primary;
  tank: Tank;
  stage: FieldStage;
}): Figure[] {
  const f1 = stage.modes[0]!.frequency;
  const capacitance = bankCapacitance(tank);
  const point = coupledPoint({ stage, at: stage.primaryAt!(primary.tap), tank, capacitance });
  const aim = aimOf(coil, stage, point.tankInductance);
  const wanted = aim.ratio * f1;
  const tap = tapFor({ primary, tank, stage, frequency: wanted });
  const source = "lc-resonance";
  return [
    figure("tuning.ratio", point.tankFrequency / f1, { from: ["tank.frequency", "secondary.f1"], source }),
    ...aim.figures,
    ...(tap === undefined
      ? []
      : [
          figure("tuning.tapForMatch", tap, {
            from: ["tuning.aimRatio", "secondary.f1", "tank.capacitance", "tank.leads.inductance", "primary.pitch"],
            source,
          }),
        ]),
    figure("tuning.capacitorForMatch", 1 / ((2 * Math.PI * wanted) ** 2 * point.tankInductance), {
      from: ["tuning.aimRatio", "secondary.f1", "tank.inductance"],
      source,
    }),
  ];
}

/** The ratio aimed at: as written, or by the streamer written or predicted. */
function aimOf(coil: Coil, stage: FieldStage, tankInductance: Henry): { ratio: Ratio; figures: Figure[] } {
  const { aim } = coil;
  if (aim && "ratio" in aim) {
    return {
      ratio: aim.ratio,
      figures: [figure("tuning.aimRatio", aim.ratio, { from: ["aim.ratio"], source: "coil-file" })],
    };
  }
  const length: { readonly value: Metre; readonly figure: Figure } = aim
    ? {
        value: aim.streamer,
        figure: figure("tuning.streamerLength", aim.streamer, { from: ["aim.streamer"], source: "coil-file" }),
      }
    : predictedStreamer(coil, tankInductance);
  const f1 = stage.modes[0]!.frequency;
  const loaded = stage.f1Loaded(streamerCapacitance(length.value));
  return {
    ratio: loaded / f1,
    figures: [
      length.figure,
      figure("tuning.loadedF1", loaded, {
        from: ["tuning.streamerLength", "secondary.f1"],
        source: "channel-capacitance",
        note: "a streamer's capacitance is known to a factor of about two either way",
      }),
      figure("tuning.aimRatio", loaded / f1, { from: ["tuning.loadedF1", "secondary.f1"], source: "lc-resonance" }),
    ],
  };
}

/** Turns in circuit at which the tank rings at a frequency; undefined where no tap within reach does. */
function tapFor({
  primary,
  tank,
  stage,
  frequency,
}: {
  primary: Primary;
  tank: Tank;
  stage: FieldStage;
  frequency: Hertz;
}): number | undefined {
  const wanted = 1 / ((2 * Math.PI * frequency) ** 2 * bankCapacitance(tank)) - tank.leads.inductance;
  const inductanceAt = (tap: number): number => stage.primaryAt!(tap).inductance;
  const [low, high] = [0.02, primary.turns + turnsBeyond];
  if (!(inductanceAt(low) < wanted && wanted < inductanceAt(high))) return undefined;
  return bracketedRoot((tap) => inductanceAt(tap) - wanted, { low, high, tolerance: 1e-7 });
}

/** How the poles move with the tap and with the bank, all else as it is. */
export function poleTracks({ primary, tank, stage }: { primary: Primary; tank: Tank; stage: FieldStage }): PoleTrack[] {
  const capacitance = bankCapacitance(tank);
  const lowest = Math.min(1, primary.turns / 2);
  return [
    track("tap", spread(lowest, primary.turns), (tap) =>
      coupledPoint({ stage, at: stage.primaryAt!(tap), tank, capacitance }),
    ),
    track("capacitance", spread(0.6 * capacitance, 1.6 * capacitance), (value) =>
      coupledPoint({ stage, at: stage.primaryAt!(primary.tap), tank, capacitance: value as Farad }),
    ),
  ];

  function track(
    against: PoleTrack["against"],
    at: Float64Array,
    pointAt: (value: number) => ReturnType<typeof coupledPoint>,
  ): PoleTrack {
    const points = Array.from(at, pointAt);
    const f1 = stage.modes[0]!.frequency;
    return {
      against,
      at,
      lower: Float64Array.from(points, ({ lower }) => lower),
      upper: Float64Array.from(points, ({ upper }) => upper),
      ratio: Float64Array.from(points, ({ tankFrequency }) => tankFrequency / f1),
    };
  }
}

function spread(from: number, to: number): Float64Array {
  return Float64Array.from({ length: trackPoints }, (_, i) => from + ((to - from) * i) / (trackPoints - 1));
}
