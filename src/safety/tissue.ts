/** How deep a current goes into tissue and into copper: the answer to the belief that the skin effect protects. */
import { OutOfDomain } from "../catalogue/errors.ts";
import { electricConstant, magneticConstant } from "../fields/vacuum.ts";
import type { Hertz, Metre } from "../units/si.ts";

export const tissues = ["muscle", "fat", "skinWet", "skinDry"] as const;
export type Tissue = (typeof tissues)[number];

export interface TissueAt {
  /** [S/m], with the losses of the dielectric in it. */
  readonly conductivity: number;
  /** Relative. */
  readonly permittivity: number;
  /** Conduction over displacement current. */
  readonly lossTangent: number;
  /** Depth at which a plane wave has fallen to 1/e [m]. */
  readonly penetrationDepth: Metre;
}

interface ColeCole {
  readonly infinite: number;
  readonly steps: readonly (readonly [strength: number, time: number, spread: number])[];
  /** [S/m], of ions */
  readonly ionic: number;
}

const parameters: Readonly<Record<Tissue, ColeCole>> = {
  muscle: {
    infinite: 4,
    steps: [
      [50, 7.234e-12, 0.1],
      [7000, 353.678e-9, 0.1],
      [1.2e6, 318.31e-6, 0.1],
      [25e6, 2.274e-3, 0],
    ],
    ionic: 0.2,
  },
  fat: {
    infinite: 2.5,
    steps: [
      [3, 7.958e-12, 0.2],
      [15, 15.915e-9, 0.1],
      [3.3e4, 159.155e-6, 0.05],
      [1e7, 7.958e-3, 0.01],
    ],
    ionic: 0.01,
  },
  skinWet: {
    infinite: 4,
    steps: [
      [39, 7.958e-12, 0.1],
      [280, 79.577e-9, 0],
      [3e4, 1.592e-6, 0.16],
      [3e4, 1.592e-3, 0.2],
    ],
    ionic: 0.0004,
  },
  skinDry: {
    infinite: 4,
    steps: [
      [32, 7.234e-12, 0],
      [1100, 32.481e-9, 0.2],
    ],
    ionic: 0.0002,
  },
};

/**
 * A tissue at a frequency.
 *
 *   ε = ε∞ + Σ Δε/(1 + (jωτ)^(1−α)) + σ/(jωε0),   δ = 1/(ω·√((µε/2)·(√(1 + (σ/ωε)²) − 1)))
 *
 * @param frequency  [Hz], 10 Hz to 100 GHz
 * @throws OutOfDomain  outside that range
 * @validity  skin at low frequencies differs widely between studies; the dead outer layer decides there
 * @source    gabriel-1996, parameters from memory (of fat as read)
 */
export function tissueAt(tissue: Tissue, frequency: Hertz): TissueAt {
  if (!(frequency >= 10 && frequency <= 100e9)) {
    throw new OutOfDomain("tissueAt", `frequency must be 10 Hz to 100 GHz, got ${frequency} Hz`);
  }
  const { infinite, steps, ionic } = parameters[tissue];
  const angular = 2 * Math.PI * frequency;
  let [real, lost] = [infinite, ionic / (angular * electricConstant)];
  for (const [strength, time, spread] of steps) {
    const power = 1 - spread;
    const size = (angular * time) ** power;
    const [below, beside] = [1 + size * Math.cos((power * Math.PI) / 2), size * Math.sin((power * Math.PI) / 2)];
    const square = below ** 2 + beside ** 2;
    real += (strength * below) / square;
    lost += (strength * beside) / square;
  }
  const lossTangent = lost / real;
  const inside = ((magneticConstant * electricConstant * real) / 2) * (Math.hypot(1, lossTangent) - 1);
  return {
    conductivity: lost * angular * electricConstant,
    permittivity: real,
    lossTangent,
    penetrationDepth: 1 / (angular * Math.sqrt(inside)),
  };
}

/** Conductivity of copper at 20 °C [S/m]. Source: iec-60028. */
const copper = 58e6;

/**
 * Skin depth of a good conductor, √(2/(ωµσ)).
 * @param conductivity [S/m], of copper where absent
 * @throws OutOfDomain  frequency or conductivity is not positive
 * @source skin-effect-bessel, its limit of a flat surface
 */
export function skinDepth(frequency: Hertz, conductivity = copper): Metre {
  if (!(frequency > 0 && conductivity > 0)) {
    throw new OutOfDomain(
      "skinDepth",
      `frequency and conductivity must be positive, got ${frequency} Hz, ${conductivity} S/m`,
    );
  }
  return Math.sqrt(1 / (Math.PI * frequency * magneticConstant * conductivity));
}
