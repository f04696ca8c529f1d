/** Published reference levels of electric and magnetic fields for people, at a frequency. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import type { Hertz, Second } from "../units/si.ts";

export type Exposed = "public" | "occupational";
export type FieldKind = "electric" | "magnetic";

export interface ReferenceLevel {
  readonly id: string;
  readonly field: FieldKind;
  readonly who: Exposed;
  /** [V/m] or [A/m], rms of the unperturbed field. */
  readonly level: number;
  readonly unit: "V/m" | "A/m";
  /** Time over which the square is averaged [s]; 0: not averaged, the rms inside the burst counts. */
  readonly averagedOver: Second;
  /** Effect that it guards against. */
  readonly guards: "nerve" | "heat, limb" | "heat, whole body";
  readonly source: SourceKey;
}

interface Law {
  readonly guards: ReferenceLevel["guards"];
  readonly from: Hertz;
  readonly to: Hertz;
  readonly averagedOver: Second;
  readonly source: SourceKey;
  /** Level at 1 MHz, and the power of the frequency in MHz that it falls with. */
  readonly electric: Readonly<Record<Exposed, number>> & { readonly falls: number };
  readonly magnetic: Readonly<Record<Exposed, number>> & { readonly falls: number };
}

const laws: readonly Law[] = [
  {
    guards: "nerve",
    from: 3e3,
    to: 10e6,
    averagedOver: 0,
    source: "icnirp-2010",
    electric: { public: 83, occupational: 170, falls: 0 },
    magnetic: { public: 21, occupational: 80, falls: 0 },
  },
  {
    guards: "heat, limb",
    from: 100e3,
    to: 30e6,
    averagedOver: 360,
    source: "icnirp-2020-local",
    electric: { public: 671, occupational: 1504, falls: 0.7 },
    magnetic: { public: 4.9, occupational: 10.8, falls: 1 },
  },
  {
    guards: "heat, whole body",
    from: 100e3,
    to: 30e6,
    averagedOver: 1800,
    source: "icnirp-2020-whole",
    electric: { public: 300, occupational: 660, falls: 0.7 },
    magnetic: { public: 2.2, occupational: 4.9, falls: 1 },
  },
];

/**
 * Every reference level that a frequency falls under. A level that is passed means "assess further", not "injury"; one that is kept is no permission.
 *
 * @param frequency  [Hz], > 0
 * @returns          empty below 3 kHz and above 30 MHz; from 100 kHz to 10 MHz the levels for nerves and for heat apply together
 * @throws OutOfDomain  the frequency is not positive
 * @source icnirp-2010, tables as reproduced; icnirp-2020-local; icnirp-2020-whole (from memory)
 */
export function referenceLevels(frequency: Hertz): readonly ReferenceLevel[] {
  if (!(frequency > 0)) throw new OutOfDomain("referenceLevels", `frequency must be positive, got ${frequency} Hz`);
  return laws
    .filter(({ from, to }) => frequency >= from && frequency <= to)
    .flatMap((law) =>
      (["electric", "magnetic"] as const).flatMap((field) =>
        (["public", "occupational"] as const).map(
          (who): ReferenceLevel => ({
            id: `${law.source}.${field}.${who}`,
            field,
            who,
            level: law[field][who] / (frequency / 1e6) ** law[field].falls,
            unit: field === "electric" ? "V/m" : "A/m",
            averagedOver: law.averagedOver,
            guards: law.guards,
            source: law.source,
          }),
        ),
      ),
    );
}
