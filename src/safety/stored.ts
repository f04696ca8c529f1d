/** What stays charged after the plug is out, and the published lines it is held against. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import { dischargeTime } from "../circuit/mains.ts";
import type { Coulomb, Farad, Joule, Ohm, Second, Volt } from "../units/si.ts";

/** Voltage that is waited for. Source: low-voltage-dc. */
export const waitedFor: Volt = 60;

export interface StoredComparison {
  readonly says: string;
  readonly over: boolean;
  readonly source: SourceKey;
}

/** Energy [J], charge [C] of a capacitor at a voltage. */
export function storedIn({ capacitance, voltage }: { capacitance: Farad; voltage: Volt }): {
  readonly energy: Joule;
  readonly charge: Coulomb;
} {
  return { energy: 0.5 * capacitance * voltage ** 2, charge: capacitance * voltage };
}

/**
 * A store against published lines.
 *
 * @param capacitance  [F], > 0; voltage [V], ≥ 0
 * @throws OutOfDomain  capacitance not positive or voltage negative
 * @source iec-60335-1-accessible: 0.1 µF above 42.4 V to 450 V, 45 µC to 15 kV, 350 mJ above; doe-capacitor-hazard: 100 V and 10 J, above
 *         400 V 1 J and 0.25 J (from memory), below 100 V 100 J; low-voltage-dc: 60 V
 */
export function comparedStore({
  capacitance,
  voltage,
}: {
  capacitance: Farad;
  voltage: Volt;
}): readonly StoredComparison[] {
  if (!(capacitance > 0 && voltage >= 0)) {
    throw new OutOfDomain(
      "comparedStore",
      `needs capacitance > 0 and voltage ≥ 0, got ${capacitance} F and ${voltage} V`,
    );
  }
  const { energy, charge } = storedIn({ capacitance, voltage });
  const reachable =
    voltage <= 42.4
      ? { says: "42.4 V peak, below which no charge is counted behind a part that people can reach", over: false }
      : voltage <= 450
        ? { says: "0.1 µF behind a part that people can reach, up to 450 V", over: capacitance > 0.1e-6 }
        : voltage <= 15e3
          ? { says: "45 µC behind a part that people can reach, 450 V to 15 kV", over: charge > 45e-6 }
          : { says: "350 mJ behind a part that people can reach, above 15 kV", over: energy > 0.35 };
  const laboratory =
    voltage > 400
      ? [
          { says: "1 J above 400 V, a shock", over: energy > 1 },
          { says: "0.25 J above 400 V, a start that throws people off ladders", over: energy > 0.25 },
        ]
      : voltage < 100
        ? [{ says: "100 J below 100 V, a burn", over: energy > 100 }]
        : [];
  return [
    { says: "60 V direct current", over: voltage > waitedFor, source: "low-voltage-dc" },
    { ...reachable, source: "iec-60335-1-accessible" },
    {
      says: "10 J at 100 V or more, a shock hazard",
      over: energy > 10 && voltage >= 100,
      source: "doe-capacitor-hazard",
    },
    ...laboratory.map((line): StoredComparison => ({ ...line, source: "doe-capacitor-memory" })),
  ];
}

/**
 * Time until a capacitor has fallen to 60 V.
 * @returns [s]; undefined where nothing discharges it: it stays for days
 */
export function waitingTime({
  voltage,
  capacitance,
  bleeder,
}: {
  voltage: Volt;
  capacitance: Farad;
  bleeder: Ohm | undefined;
}): Second | undefined {
  const time = dischargeTime({ from: voltage, to: waitedFor, capacitance, resistance: bleeder });
  return Number.isFinite(time) ? time : undefined;
}
