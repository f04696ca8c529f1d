/** The staged bring-up of a coil as data: what to connect, what a probe must show before the next switch is thrown, when to stop. */

/** What a probe should show. All in SI. */
export interface Expectation {
  readonly unit: string;
  readonly value: number;
  /** Ends of the interval that a reading should lie in; where the coil file gives no better, common practice. */
  readonly low: number;
  readonly high: number;
  /** Ids of figures and paths of the coil file that it stands on. */
  readonly from: readonly string[];
}

export interface BringUpStep {
  readonly id: string;
  /** What to do, in the imperative. */
  readonly does: string;
  /** Where the probe sits, and of what kind it is. */
  readonly probe: string;
  /** Bus voltage of this step [V]; 0 without. */
  readonly bus: number;
  /** Absent where the eye decides, or a picture. */
  readonly expects?: Expectation;
  /** What it looks like, in words. */
  readonly picture: string;
  /** When to switch off at once. */
  readonly stop: string;
  /** Likely causes when it differs, first the most common. */
  readonly differs: readonly string[];
}

export interface BringUpStage {
  readonly id: BringUpStageId;
  readonly title: string;
  readonly connect: readonly string[];
  /** Whether hands go near what may hold charge: then the discharge check stands before it. */
  readonly touches: boolean;
  readonly steps: readonly BringUpStep[];
  /** What the file lacks for numbers in this stage. */
  readonly missing: readonly string[];
}

export type BringUpStageId =
  | "parts"
  | "earth"
  | "rails"
  | "gates"
  | "sweep"
  | "low-bus"
  | "tune"
  | "overcurrent"
  | "breakout"
  | "full";

/** How long the bus holds its charge, and what to do about it before every touch. */
export interface DischargeAdvice {
  /** To 60 V through the bleeder [s]; undefined where there is no bleeder or no supply. */
  readonly time: number | undefined;
  readonly storedEnergy: number | undefined;
  /** Greatest voltage that the tank's bank may be left with [V]. */
  readonly tankVoltage: number | undefined;
  readonly steps: readonly string[];
}

/** What a pickup shows at a distance, at a voltage of the top. Peak values. */
export interface PickupReading {
  readonly kind: "wire" | "loop";
  readonly into: "probe" | "terminated";
  /** From the axis [m]. */
  readonly distance: number;
  /** At the first low bus and at full [V], peak. */
  readonly atLowBus: number;
  readonly atFull: number;
}

export interface PickupAdvice {
  /** Wire: length [m]; loop: diameter [m], turns. */
  readonly wireLength: number;
  readonly loopDiameter: number;
  readonly loopTurns: number;
  readonly readings: readonly PickupReading[];
  /** Distance from which on a wire into a 10:1 probe stays below the limit at full [m]; undefined where it does nowhere within 10 m. */
  readonly wireFrom: number | undefined;
  /** Of the probe [V]. */
  readonly limit: number;
  readonly says: readonly string[];
}

export interface CurrentTransformerAdvice {
  readonly ratio: number;
  readonly burden: number;
  /** [A/V] */
  readonly scale: number;
  /** At the greatest predicted current [V]; undefined without a burst. */
  readonly voltageAtPeak: number | undefined;
}

export interface BringUp {
  readonly stages: readonly BringUpStage[];
  readonly discharge: DischargeAdvice;
  readonly pickup: PickupAdvice | undefined;
  readonly currentTransformer: CurrentTransformerAdvice | undefined;
  readonly earth: readonly string[];
  readonly cautions: readonly string[];
}
