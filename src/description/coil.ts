/** The coil as plain immutable data: the keys of the coil file, SI numbers, temperatures in kelvin, angles in radians. */
import type { TopLoadCase } from "../parts/index.ts";
import type {
  Ampere,
  Coulomb,
  Farad,
  Henry,
  Hertz,
  Joule,
  Kelvin,
  KelvinPerWatt,
  Metre,
  Ohm,
  Pascal,
  Radian,
  Ratio,
  Second,
  SquareMetre,
  Tesla,
  Volt,
} from "../units/si.ts";
import type { Hazard } from "./hazards.ts";

export interface Air {
  readonly temperature: Kelvin;
  readonly pressure: Pascal;
  readonly humidity: Ratio;
}
export interface Wall {
  readonly radius: Metre;
  readonly height?: Metre;
}
export interface Ceiling {
  readonly height: Metre;
  readonly radius?: Metre;
}
/** An earthed upright capsule; `at` is the distance of its axis from the coil's, `foot` the gap below it. */
export interface Person {
  readonly at: Metre;
  readonly height: Metre;
  readonly radius: Metre;
  readonly foot: Metre;
}
export interface RoomObject {
  readonly kind: "rod";
  readonly at: Metre;
  readonly height: Metre;
  readonly diameter: Metre;
  readonly foot: Metre;
  readonly earthed: boolean;
}
export interface Site {
  readonly air: Air;
  readonly ceiling?: Ceiling;
  readonly wall?: Wall;
  readonly people: readonly Person[];
  readonly objects: readonly RoomObject[];
}

export interface RoundWire {
  readonly bare: Metre;
  readonly overall: Metre;
}
export interface Coating {
  readonly material: string;
  readonly thickness: Metre;
}
export interface Secondary {
  readonly former: { readonly outerDiameter: Metre };
  readonly wire: RoundWire;
  readonly turns: number;
  readonly length: Metre;
  readonly baseHeight: Metre;
  readonly coating?: Coating;
}

/** `{ toroid: … } | { sphere: … } | …`: what each has is declared once, with its shape, in `src/parts/toploads`. */
export type TopLoad = TopLoadCase;

export type Conductor =
  | { readonly tube: Metre }
  | { readonly wire: Metre }
  | { readonly trace: { readonly width: Metre; readonly thickness: Metre } };
export interface StrikeRing {
  readonly diameter: Metre;
  readonly tube: Metre;
  readonly height: Metre;
  readonly earthed: boolean;
  /** A closed ring is a shorted turn; a split one carries no current. */
  readonly closed: boolean;
}
export interface Primary {
  readonly angle: Radian;
  /** Turns of each layer. */
  readonly turns: number;
  /** Turns in circuit, of each layer, counted from the first turn. */
  readonly tap: number;
  readonly firstTurnDiameter: Metre;
  readonly pitch: Metre;
  readonly conductor: Conductor;
  readonly layers: { readonly count: 1 | 2; readonly gap: Metre; readonly connected: "series" | "parallel" };
  readonly baseHeight: Metre;
  readonly strikeRing?: StrikeRing;
}

export interface Bank {
  readonly each: Farad;
  readonly voltage?: Volt;
  readonly dissipation?: Ratio;
  readonly series: number;
  readonly parallel: number;
}
export interface Tank {
  readonly bank: Bank;
  readonly leads: { readonly inductance: Henry; readonly resistance: Ohm };
}

export interface Switch {
  readonly kind: "igbt" | "mosfet";
  readonly voltage: Volt;
  readonly current: Ampere;
  readonly pulse: Ampere;
  readonly vce0: Volt;
  readonly rce: Ohm;
  readonly diode: { readonly vf0: Volt; readonly rd: Ohm };
  readonly turnOff: { readonly energy: Joule; readonly atCurrent: Ampere; readonly atVoltage: Volt };
  /** Foster terms, [K/W, s] each. */
  readonly thermal: readonly (readonly [KelvinPerWatt, Second])[];
  readonly junctionMax: Kelvin;
}
export interface Bridge {
  readonly kind: "half" | "full";
  readonly switch: Switch;
  readonly heatsink: { readonly thermal: KelvinPerWatt; readonly ambient: Kelvin };
  readonly gate: {
    readonly drive: Volt;
    readonly resistor: Ohm;
    readonly charge: Coulomb;
    readonly transformer?: {
      readonly turns: number;
      readonly coreArea: SquareMetre;
      readonly fluxMax: Tesla;
      readonly leakage: Henry;
    };
  };
  readonly deadTime?: Second;
}
export interface Rail {
  readonly volts: Volt;
  readonly dropout: Volt;
  readonly load: Ampere;
}
export interface Supply {
  readonly mains: { readonly voltage: Volt; readonly frequency: Hertz };
  readonly rectifier: "bridge" | "doubler";
  readonly capacitors: {
    readonly each: Farad;
    readonly series: number;
    readonly parallel: number;
    readonly voltage: Volt;
    readonly esr: Ohm;
    readonly bleeder?: Ohm;
  };
  readonly inrush?: { readonly ntc: Ohm };
  readonly fuse?: Ampere;
  readonly control?: {
    readonly transformer: Volt;
    readonly current: Ampere;
    readonly regulation: Ratio;
    readonly reservoir: Farad;
    readonly rails: readonly Rail[];
  };
}
export interface Feedback {
  readonly sense: "primaryCurrent" | "secondaryCurrent" | { readonly fixedFrequency: Hertz };
  readonly transformer?: { readonly ratio: number; readonly burden: Ohm };
  readonly delay: Second;
  readonly lead: Second;
  readonly overcurrent?: Ampere;
}
export interface Interrupter {
  readonly onTime: Second;
  readonly rate: Hertz;
  readonly limits?: { readonly onTime: Second; readonly duty: Ratio; readonly rate: Hertz; readonly gap: Second };
}
/** A place on the floor: distance from the axis, and bearing anticlockwise from the audience's side, seen from above. */
export interface FloorPlace {
  readonly at: Metre;
  readonly bearing: Radian;
}
/** The coil among people. What is absent was not said, and is a finding; nothing in it is a permission. */
export interface Show {
  readonly barrier?: Metre;
  readonly duration?: Second;
  readonly duty?: Ratio;
  readonly room?: {
    readonly width: Metre;
    readonly depth: Metre;
    readonly behind?: Metre;
    readonly airing: "open" | "changed" | "closed";
  };
  readonly operator?: FloorPlace;
  readonly second?: FloorPlace;
  readonly breaker?: FloorPlace;
  readonly deadMan: boolean;
  readonly exit?: FloorPlace;
  readonly earth?: FloorPlace & { readonly lead?: Metre };
  /** dB(A) at a distance. */
  readonly noise?: { readonly level: number; readonly at: Metre };
  readonly acknowledged: readonly Hazard[];
}
/** Constants of this coil's streamer, learnt from lengths that were seen. */
export interface StreamerConstants {
  readonly energyPerMetre?: Joule;
  readonly voltagePerMetre?: Volt;
  readonly memory?: Second;
}
/** What the tune should aim at. Absent: the secondary loaded by a streamer of the predicted length. */
export type Aim = { readonly streamer: Metre } | { readonly ratio: Ratio };

export interface Coil {
  readonly coilwright: 1;
  readonly name: string;
  readonly site: Site;
  readonly secondary: Secondary;
  readonly topload: readonly TopLoad[];
  readonly primary?: Primary;
  readonly tank?: Tank;
  readonly bridge?: Bridge;
  readonly supply?: Supply;
  readonly feedback?: Feedback;
  readonly interrupter?: Interrupter;
  readonly show?: Show;
  readonly streamer?: StreamerConstants;
  readonly aim?: Aim;
}
