/** One moment of a burst explained: what conducts, which way the current goes, and where the energy is. */
import { formatQuantity } from "../units/format.ts";
import type { Waveforms } from "../workbench/burst-contract.ts";
import type { Conducting } from "./schematic-current.ts";
import { spentParts } from "./waveform-energy.ts";
import { sampleAt } from "./waveform-reduce.ts";

/** What the resonator is made of, as the energy in it is counted. */
export interface Store {
  /** Of the whole tank capacitor [F]. */
  readonly capacitance: number;
  /** Of the primary with its leads [H]. */
  readonly inductance: number;
}

export type Keeper = "given" | "capacitor" | "inductance" | "secondary" | "spent";

export interface Moment {
  readonly conducting: Conducting;
  /** [A], positive from the first leg through tank and primary. */
  readonly current: number;
  /** [V] */
  readonly tankVoltage: number;
  /** [C] that has passed since the burst began. */
  readonly charge: number;
  /** Where the energy is [J]. `given` is what the bus has given, less what came back; the others add up to it and to what the tank began with. */
  readonly energy: Readonly<Record<Keeper, number>>;
}

/**
 * The waveforms read at one time.
 *
 * Capacitor ½CV², inductance ½LI²; what is stored beside these is counted as secondary's, the field that both coils share included, so that it
 * may be negative for a moment.
 */
export function momentAt(waves: Waveforms, { capacitance, inductance }: Store, at: number): Moment {
  const { time, energy } = waves;
  const read = (values: ArrayLike<number>, held = false) => sampleAt(time, values, at, held);
  const current = read(waves.primaryCurrent);
  const tankVoltage = read(waves.tankVoltage);
  const begun = waves.tankVoltage[0] ?? 0;
  const capacitor = 0.5 * capacitance * tankVoltage ** 2;
  const field = 0.5 * inductance * current ** 2;
  const stored = read(energy.stored) + 0.5 * capacitance * begun ** 2;
  const spent = spentParts.reduce((sum, { part }) => (part === "stored" ? sum : sum + read(energy[part])), 0);
  return {
    conducting: conductingAt(current, { upper: read(waves.gateUpper, true), lower: read(waves.gateLower, true) }),
    current,
    tankVoltage,
    charge: capacitance * (tankVoltage - begun),
    energy: {
      given: read(energy.drawn) - read(energy.returned),
      capacitor,
      inductance: field,
      secondary: stored - capacitor - field,
      spent,
    },
  };
}

/** By the gates and the sign of the current at that very time: between two samples the current may have changed its branch. */
function conductingAt(current: number, { upper, lower }: { upper: number; lower: number }): Conducting {
  if (current === 0) return 0;
  if (current > 0) return upper > 0.5 ? 1 : 4;
  return lower > 0.5 ? 3 : 2;
}

/** Names of the bars, in the order of the way that the energy takes. */
export const keepers: readonly { readonly keeper: Keeper; readonly name: string }[] = [
  { keeper: "given", name: "given by the bus" },
  { keeper: "capacitor", name: "tank capacitor" },
  { keeper: "inductance", name: "primary inductance" },
  { keeper: "secondary", name: "secondary, top and shared field" },
  { keeper: "spent", name: "heat and streamer" },
];

/** The greatest that any bar gets over the burst, so that all share one scale [J]. */
export function greatestEnergy(waves: Waveforms, store: Store): number {
  const { time } = waves;
  const stride = Math.max(1, Math.floor(time.length / 600));
  let most = 0;
  for (let n = 0; n < time.length; n += stride) {
    const { energy } = momentAt(waves, store, time[n] ?? 0);
    most = Math.max(most, energy.given, energy.capacitor, energy.inductance, energy.secondary, energy.spent);
  }
  return most;
}

const devices: Readonly<Record<"half" | "full", readonly string[]>> = {
  half: [
    "nothing",
    "the upper switch",
    "the diode of the upper switch",
    "the lower switch",
    "the diode of the lower switch",
  ],
  full: [
    "nothing",
    "the switches of pair G1",
    "the diodes of pair G1",
    "the switches of pair G2",
    "the diodes of pair G2",
  ],
};

/** What happens at a moment, in two sentences. */
export function momentText({ conducting, current, tankVoltage }: Moment, kind: "half" | "full"): string {
  const device = devices[kind][conducting] ?? "nothing";
  if (conducting === 0) return "Nothing conducts in the bridge: the primary carries no current.";
  const ampere = formatQuantity(Math.abs(current), "A", { digits: 3 });
  const way = current >= 0 ? "from the leg through tank and primary" : "back through primary and tank into the leg";
  const bySwitch = conducting === 1 || conducting === 3;
  const byBus = bySwitch ? "the bus gives energy" : "energy goes back to the bus";
  const byTank =
    tankVoltage * current >= 0 ? "the tank capacitor is being charged" : "the tank capacitor gives its energy up";
  const verb = kind === "half" ? "conducts" : "conduct";
  return `${device[0]?.toUpperCase()}${device.slice(1)} ${verb} ${ampere}, ${way}. Just now ${byBus}, and ${byTank}.`;
}
