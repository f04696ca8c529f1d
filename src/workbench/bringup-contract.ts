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

/** One line of a picture; as many values as the picture has abscissas. */
export interface ExpectedTrace {
  readonly id:
    | "rail"
    | "reservoir"
    | "gate"
    | "gateUpper"
    | "gateLower"
    | "sense"
    | "bridge"
    | "interrupter"
    | "primaryCurrent"
    | "topVoltage"
    | "pickup"
    | "busVoltage"
    | "mainsCurrent"
    | "amplitude";
  readonly says: string;
  /** SI; `1` where only the shape counts: then the greatest value is 1. */
  readonly unit: string;
  readonly values: readonly number[];
}

/** What an instrument should show at a test point, to be drawn beside the reading. Plain arrays, five digits. */
export interface ExpectedPicture {
  readonly against: "time" | "frequency" | "tap";
  readonly unit: "s" | "Hz" | "1";
  /** Abscissas, rising. Time runs from the start of the burst, or of the piece that is shown. */
  readonly at: readonly number[];
  readonly traces: readonly ExpectedTrace[];
  /** What to look for, and where. */
  readonly marks: readonly { readonly at: number; readonly says: string }[];
  /** What is simple about it. */
  readonly note?: string;
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
  /** What it looks like, as lines. Absent where a meter or the eye decides, or the file lacks what it would take. */
  readonly shows?: ExpectedPicture;
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

/** A wire or a loop, and what it is joined to. */
export interface PickupInstrument {
  readonly kind: "wire" | "loop";
  /** Length of the wire, diameter of the loop [m]. */
  readonly size: number;
  /** Of the loop; a wire has none. */
  readonly turns: number;
  /** A 10:1 probe, or the instrument's own 50 Ω. */
  readonly into: "probe" | "terminated";
  /** From the coil's axis [m]. */
  readonly distance: number;
}

/** What a pickup shows at a distance, at a voltage of the top. Peak values. */
export interface PickupReading extends PickupInstrument {
  /** At the first low bus and at full [V], peak. */
  readonly atLowBus: number;
  readonly atFull: number;
  /** What probe or input bears at this frequency [V peak]. */
  readonly limit: number;
  /** Whether three times the reading at the full bus, which is as far as it may be off, stays below that. */
  readonly withinAtFull: boolean;
  /** Distance from which on that is so [m]; undefined where nowhere within 10 m. */
  readonly from: number | undefined;
}

/** Peak of the top, of the primary current, at a frequency: what a pickup sees. */
export interface Radiating {
  readonly topVoltage: number;
  readonly primaryCurrent: number;
  readonly frequency: number;
}

export interface PickupAdvice {
  /** Wire: length [m]; loop: diameter [m], turns. */
  readonly wireLength: number;
  readonly loopDiameter: number;
  readonly loopTurns: number;
  /** What the readings are reckoned from, for `pickupReading` with another instrument. */
  readonly low: Radiating;
  readonly full: Radiating;
  readonly readings: readonly PickupReading[];
  /** The instrument that was asked for. */
  readonly chosen?: PickupReading;
  /** Distance from which on a wire into a 10:1 probe stays below the limit at full [m]; undefined where it does nowhere within 10 m. */
  readonly wireFrom: number | undefined;
  /** Of the probe [V]. */
  readonly limit: number;
  readonly says: readonly string[];
}

/** What the bridge's edges and the primary's field put into a probe by its ground lead. */
export interface GroundLeadAdvice {
  /** Of the bridge's output at the full bus [V/s], and the time that it was reckoned for [s]. */
  readonly edge: number;
  readonly edgeTime: number;
  /** Through the probe's own capacitance while the edge lasts [A]. */
  readonly edgeCurrent: number;
  readonly leads: readonly {
    /** Of the ground lead [m], its inductance [H]. */
    readonly length: number;
    readonly inductance: number;
    /** At which lead and probe ring after an edge [Hz]. */
    readonly ringsAt: number;
    /** That the primary's field induces in the loop of tip and lead, half a metre off the axis, at full [V peak]. */
    readonly induced: number;
  }[];
  readonly says: readonly string[];
}

/** The strap and the rod of the secondary's base, at the full bus. */
export interface EarthAdvice {
  /** Into the earth at the base [A peak]. */
  readonly baseCurrent: number;
  readonly frequency: number;
  /** Voltage along each metre of strap [V/m peak]. */
  readonly strapVoltage: number;
  readonly rod: {
    readonly length: number;
    /** In soil of the resistivity [Ω·m] that was reckoned with. */
    readonly resistance: number;
    readonly resistivity: number;
    /** Of the rod against far earth [V peak]. */
    readonly voltage: number;
    /** Distance from another rod or a water pipe at which a tenth of that is left [m]. */
    readonly apart: number;
  };
  readonly says: readonly string[];
}

export interface CurrentTransformerAdvice {
  readonly ratio: number;
  readonly burden: number;
  /** [A/V] */
  readonly scale: number;
  /** At the greatest predicted current [V]; undefined without a burst. */
  readonly voltageAtPeak: number | undefined;
  /** Which current it stands in. */
  readonly of: "primary" | "secondary";
}

export interface BringUp {
  readonly stages: readonly BringUpStage[];
  readonly discharge: DischargeAdvice;
  readonly pickup: PickupAdvice | undefined;
  readonly currentTransformer: CurrentTransformerAdvice | undefined;
  /** Undefined without a bridge or a burst. */
  readonly groundLead: GroundLeadAdvice | undefined;
  readonly earth: readonly string[];
  /** Undefined without a burst. */
  readonly earthStrap: EarthAdvice | undefined;
  readonly cautions: readonly string[];
}
