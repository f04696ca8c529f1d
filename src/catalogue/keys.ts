/**
 * The small language in which the coil file is described once. From one record of keys come the reading and its messages, the TypeScript
 * type, the JSON Schema for editors, the table in the manual and the forms of the app.
 */
import type { Dimension, SiUnitOf } from "../units/dimension.ts";
import type { Origin } from "../units/quantity.ts";
import type { Si } from "../units/si.ts";

/** Which row of the table of default tolerances a quantity belongs to; its dimension where nothing else is said. */
export type ToleranceKind = Dimension | "wire" | "room" | "dissipation" | "none";

interface Said {
  /** One clause without a full stop: what the key is. */
  readonly says: string;
  /** What a form calls it; the key itself, spelled out, where absent. */
  readonly label?: string;
}

/** A missing key computed from a sibling of the same record. `says` documents it, e.g. `all turns`. */
export interface Derived {
  readonly from: string;
  readonly by: (sibling: number) => number;
  readonly says: string;
  readonly origin: Origin;
}

/** A physical quantity. Limits and the default are written as in the file; both limits may be reached. */
export interface QuantityKey extends Said {
  readonly dimension: Dimension;
  readonly required?: true;
  readonly default?: string;
  readonly derived?: Derived;
  readonly from?: string;
  readonly to?: string;
  readonly example?: string;
  readonly tolerance?: ToleranceKind;
}

/** A bare whole number. `only` lists the values where there are few. */
export interface CountKey extends Said {
  readonly kind: "count";
  readonly required?: true;
  readonly default?: number;
  readonly from: number;
  readonly to: number;
  readonly only?: readonly number[];
}

/** A bare number with decimals: turns at a tap, the ratio of a transformer. */
export interface NumberKey extends Said {
  readonly kind: "number";
  readonly required?: true;
  readonly default?: number;
  readonly derived?: Derived;
  readonly from: number;
  readonly to: number;
}

export interface TextKey extends Said {
  readonly kind: "text";
  readonly required?: true;
  readonly default?: string;
  readonly longest: number;
}

/** One word of a few; each option says what it means. */
export interface ChoiceKey extends Said {
  readonly kind: "choice";
  readonly required?: true;
  readonly default?: string;
  readonly options: Readonly<Record<string, string>>;
}

export interface FlagKey extends Said {
  readonly kind: "flag";
  readonly required?: true;
  readonly default?: boolean;
}

export interface ListKey extends Said {
  readonly kind: "list";
  readonly required?: true;
  /** Only the empty list can stand in for a missing one. */
  readonly default?: readonly [];
  readonly of: Key;
  readonly fewest?: number;
  readonly most: number;
}

/** `[0.12 K/W, 1 ms]`: two values in fixed order. */
export interface PairKey extends Said {
  readonly kind: "pair";
  readonly of: readonly [Key, Key];
}

export interface RecordKey extends Said {
  readonly kind: "record";
  readonly keys: KeyRecord;
  readonly required?: true;
  /** A missing record is read as an empty one: all its keys have defaults. */
  readonly always?: true;
  /** The record as one line of text: `230 V 50 Hz`, `6 mm x 0.07 mm`, or a single value standing for one key. */
  readonly inline?: { readonly order: readonly string[]; readonly between: " " | " x "; readonly example: string };
  /** A second spelling: the value of `fixedFrequency` is read as `sense: { fixedFrequency: … }`. */
  readonly also?: Readonly<Record<string, string>>;
}

/** A map with exactly one key that says what it is, `- toroid: { … }`, or one of a few words. */
export interface OneOfKey extends Said {
  readonly kind: "oneOf";
  readonly required?: true;
  readonly cases: Readonly<Record<string, Key>>;
  readonly words?: Readonly<Record<string, string>>;
}

export type Key =
  | QuantityKey
  | CountKey
  | NumberKey
  | TextKey
  | ChoiceKey
  | FlagKey
  | ListKey
  | PairKey
  | RecordKey
  | OneOfKey;
export type KeyRecord = { readonly [name: string]: Key };

/** A key that is there after reading whatever the file says. */
type Present =
  | { readonly required: true }
  | { readonly default: unknown }
  | { readonly derived: Derived }
  | { readonly always: true };
type Flat<T> = { [P in keyof T]: T[P] };

/** What the reader makes of a record of keys: SI numbers, optional where the file may leave the key out and no default fills it. */
export type RecordValue<R> = Flat<
  { readonly [P in keyof R as R[P] extends Present ? P : never]: Value<R[P]> } & {
    readonly [P in keyof R as R[P] extends Present ? never : P]?: Value<R[P]>;
  }
>;

/** What the reader makes of one key. */
export type Value<K> = K extends { readonly dimension: infer D extends Dimension }
  ? Si<SiUnitOf<D>>
  : K extends { readonly kind: "count"; readonly only: readonly (infer N)[] }
    ? N
    : K extends { readonly kind: "count" | "number" }
      ? number
      : K extends { readonly kind: "text" }
        ? string
        : K extends { readonly kind: "choice"; readonly options: infer O }
          ? keyof O & string
          : K extends { readonly kind: "flag" }
            ? boolean
            : K extends { readonly kind: "list"; readonly of: infer E }
              ? readonly Value<E>[]
              : K extends { readonly kind: "pair"; readonly of: readonly [infer A, infer B] }
                ? readonly [Value<A>, Value<B>]
                : K extends { readonly kind: "record"; readonly keys: infer R }
                  ? RecordValue<R>
                  : K extends { readonly kind: "oneOf"; readonly cases: infer C }
                    ? CaseValue<C> | WordValue<K>
                    : never;
type CaseValue<C> = { [P in keyof C]: { readonly [Q in P]: Value<C[P]> } }[keyof C];
type WordValue<K> = K extends { readonly words: infer W } ? keyof W & string : never;

/** Keeps the literal types of a record of keys, so that its value's type can be read off. */
export function defineKeys<const R extends KeyRecord>(keys: R): R {
  return keys;
}

/** Limits of a quantity that states none: wide, but such that nothing downstream overflows. Written as in the file. */
export const usualLimits: Readonly<Record<Dimension, { readonly from: string; readonly to: string }>> = {
  length: { from: "1 µm", to: "100 m" },
  area: { from: "0.01 mm²", to: "1 m²" },
  time: { from: "1 ns", to: "1000 s" },
  frequency: { from: "0.001 Hz", to: "100 MHz" },
  inductance: { from: "1 pH", to: "1000 H" },
  capacitance: { from: "0.01 pF", to: "10 F" },
  resistance: { from: "1 µΩ", to: "100 GΩ" },
  voltage: { from: "1 mV", to: "10 MV" },
  current: { from: "1 µA", to: "100 kA" },
  power: { from: "1 µW", to: "10 MW" },
  energy: { from: "1 nJ", to: "1 MJ" },
  charge: { from: "1 pC", to: "1 C" },
  temperature: { from: "-60 °C", to: "400 °C" },
  pressure: { from: "100 hPa", to: "2000 hPa" },
  thermalResistance: { from: "0.0001 K/W", to: "1000 K/W" },
  fluxDensity: { from: "0.1 mT", to: "10 T" },
  angle: { from: "0°", to: "90°" },
  ratio: { from: "0 %", to: "100 %" },
};

export function isQuantityKey(key: Key): key is QuantityKey {
  return "dimension" in key;
}

/**
 * The key at a dotted path (`topload.0.toroid.height`), or undefined where the file knows no such key. List items are numbers, the two
 * halves of a pair 0 and 1.
 */
export function keyAt(root: Key, path: string): Key | undefined {
  let key: Key | undefined = root;
  for (const step of path === "" ? [] : path.split(".")) {
    if (key === undefined || isQuantityKey(key)) return undefined;
    if (key.kind === "record") key = ownOf(key.keys, step);
    else if (key.kind === "oneOf") key = ownOf(key.cases, step);
    else if (key.kind === "list") key = /^\d+$/.test(step) ? key.of : undefined;
    else if (key.kind === "pair") key = step === "0" || step === "1" ? key.of[Number(step) as 0 | 1] : undefined;
    else return undefined;
  }
  return key;
}

/** Own properties only: `constructor` and `__proto__` are not keys of a coil. */
export function ownOf<T>(record: Readonly<Record<string, T>>, name: string): T | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}

/** `outerDiameter` → `outer diameter`: what a form calls a key that has no label of its own. */
export function labelOf(name: string, key: Key): string {
  return key.label ?? name.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}
