/** Losses and junction temperature of one switch, from the currents that are really switched. */

import type { BurstResult, GateChange } from "../burst/index.ts";
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Bridge } from "../description/coil.ts";
import {
  type HeatStretch,
  type JunctionCourse,
  junctionCourse,
  turnOffEnergy,
  turnOnEnergy,
  turnOnOverTurnOff,
} from "../stress/index.ts";
import type { Joule, Second, Volt } from "../units/si.ts";
import type { Commutation } from "./burst-contract.ts";
import type { BurstContext } from "./burst-figures.ts";

const celsiusZero = 273.15;
/** Turn-off energy about its data-sheet point, either way. From memory. */
const turnOffSpread = 0.2;

export interface SwitchStudy {
  readonly figures: readonly Figure[];
  readonly junction: JunctionCourse;
  readonly commutations: readonly Commutation[];
}

/** A change of the gates with what it costs all switches of one position, upper or lower. */
interface Switching {
  readonly time: Second;
  readonly off: number;
  readonly on: number;
}

export function switchStudy({ coil, train }: BurstContext): SwitchStudy {
  const { bridge } = coil;
  const { result, period, network } = train;
  // A half bridge has two switches, a full bridge four; each path through a full bridge has two in it.
  const count = bridge.kind === "full" ? 4 : 2;
  const inPath = count / 2;
  const voltage: Volt = network.bus.voltage;
  const switchings = switchingsOf(result.gateChanges);
  const energyOf = (kind: "off" | "on", at: Switching): Joule => {
    const energy = kind === "off" ? turnOffEnergy : turnOnEnergy;
    return (inPath * energy({ turnOff: bridge.switch.turnOff, current: at[kind], voltage })) / count;
  };
  const total = (kind: "off" | "on"): Joule => switchings.reduce((sum, at) => sum + energyOf(kind, at), 0);
  const parts = {
    conduction: result.ledger.switches / count,
    diode: result.ledger.diodes / count,
    off: total("off"),
    on: total("on"),
  };
  const loss = parts.conduction + parts.diode + parts.off + parts.on;
  const ends = {
    low: parts.conduction + parts.diode + (1 - turnOffSpread) * parts.off + turnOnOverTurnOff.least * parts.on,
    high: parts.conduction + parts.diode + (1 + turnOffSpread) * parts.off + turnOnOverTurnOff.greatest * parts.on,
  };
  const stretches = stretchesOf({
    result,
    conduction: parts.conduction,
    diode: parts.diode,
    switched: switchings.map((at) => ({ time: at.time, energy: energyOf("off", at) + energyOf("on", at) })),
    period,
  });
  const { heatsink } = bridge;
  const junction = junctionCourse({ stretches, period, terms: bridge.switch.thermal, heatsink });
  return {
    junction,
    commutations: commutationsOf(result),
    figures: switchFigures({ bridge, result, junction, parts, loss, ends, period }),
  };
}

function switchFigures({
  bridge,
  result,
  junction,
  parts,
  loss,
  ends,
  period,
}: {
  bridge: Bridge;
  result: BurstResult;
  junction: JunctionCourse;
  parts: Readonly<Record<"conduction" | "diode" | "off" | "on", Joule>>;
  loss: Joule;
  ends: { readonly low: Joule; readonly high: Joule };
  period: Second;
}): Figure[] {
  const scaling = "switching-energy-scaling";
  const foster = "foster-network";
  // Every temperature is ambient plus something in proportion to the loss.
  const scaled = (temperature: number, by: Joule): number =>
    bridge.heatsink.ambient + (temperature - bridge.heatsink.ambient) * (loss > 0 ? by / loss : 1) - celsiusZero;
  const celsius = (id: string, temperature: number, from: readonly string[]): Figure =>
    figure(id, temperature - celsiusZero, {
      from,
      source: foster,
      low: Math.min(scaled(temperature, ends.low), temperature - celsiusZero),
      high: Math.max(scaled(temperature, ends.high), temperature - celsiusZero),
      note: "in °C; reckoned in kelvin; switch and diode in one thermal network, losses as at the data-sheet temperature",
    });
  const thermal = ["switch.meanPower", "bridge.heatsink", "bridge.switch.thermal"];
  return [
    figure("switch.lossPerBurst", loss, {
      from: ["switch.conductionLoss", "switch.diodeLoss", "switch.turnOffLoss", "switch.turnOnLoss"],
      source: scaling,
      ...ends,
    }),
    figure("switch.conductionLoss", parts.conduction, {
      from: ["burst.energy.switches", "bridge.kind"],
      source: "burst-simulation",
    }),
    figure("switch.diodeLoss", parts.diode, {
      from: ["burst.energy.diodes", "bridge.kind"],
      source: "burst-simulation",
    }),
    figure("switch.turnOffLoss", parts.off, {
      from: ["switch.commutationCurrent", "bridge.switch.turnOff", "bus.voltage"],
      source: scaling,
      low: (1 - turnOffSpread) * parts.off,
      high: (1 + turnOffSpread) * parts.off,
    }),
    figure("switch.turnOnLoss", parts.on, {
      from: ["switch.takenOverCurrent", "bridge.switch.turnOff", "bus.voltage"],
      source: scaling,
      low: turnOnOverTurnOff.least * parts.on,
      high: turnOnOverTurnOff.greatest * parts.on,
      note: "the file has no turn-on or recovery energy; taken as large as turn-off, common practice",
    }),
    figure("switch.commutationCurrent", result.largestSwitchedOffCurrent, {
      from: ["feedback.timeError", "burst.peakPrimaryCurrent", "bridge.deadTime"],
      source: "burst-simulation",
    }),
    figure("switch.takenOverCurrent", result.largestTakenOverCurrent, {
      from: ["feedback.timeError", "burst.peakPrimaryCurrent", "bridge.deadTime"],
      source: "burst-simulation",
    }),
    figure("switch.meanPower", loss / period, {
      from: ["switch.lossPerBurst", "interrupter.rate"],
      source: "burst-train",
      low: ends.low / period,
      high: ends.high / period,
    }),
    celsius("switch.junctionPeak", junction.peak, thermal),
    celsius("switch.junctionMean", junction.mean, thermal),
    celsius("switch.case", junction.heatsinkCase, thermal),
  ];
}

/** What each change of the gates puts off or takes over [A]. */
function switchingsOf(changes: readonly GateChange[]): Switching[] {
  let before = { upper: true, lower: false };
  return changes.map(({ time, current, upper, lower }) => {
    const size = Math.abs(current);
    const off = (before.upper && !upper && current > 0) || (before.lower && !lower && current < 0) ? size : 0;
    // The other side's diode carries a current that flows with this side's switch.
    const on = (upper && !before.upper && current > 0) || (lower && !before.lower && current < 0) ? size : 0;
    before = { upper, lower };
    return { time, off, on };
  });
}

/** One entry for every time that the opposite side goes on. */
function commutationsOf({ gateChanges, commutations }: BurstResult): Commutation[] {
  const switchings = switchingsOf(gateChanges);
  const times = new Set(commutations);
  let off = 0;
  const found: Commutation[] = [];
  switchings.forEach((at, n) => {
    off = Math.max(off, at.off);
    if (!times.has(at.time) || !(gateChanges[n]!.upper || gateChanges[n]!.lower)) return;
    if (at.on > 0) found.push({ time: at.time, current: at.on, kind: "hard" });
    else found.push({ time: at.time, current: off, kind: gateChanges[n]!.current === 0 ? "blocked" : "soft" });
    off = 0;
  });
  return found;
}

/**
 * The heat of one switch with its diode over a burst, half-cycle by half-cycle: conduction in proportion to what each half-cycle's peak
 * would cost, and after the drive the diodes alone down to the moment when the primary is quiet. The sums are exact, the split is not.
 */
function stretchesOf({
  result,
  conduction,
  diode,
  switched,
  period,
}: {
  result: BurstResult;
  conduction: Joule;
  diode: Joule;
  switched: readonly { readonly time: Second; readonly energy: Joule }[];
  period: Second;
}): HeatStretch[] {
  const { envelope } = result;
  const off = result.gatesOffTime ?? result.at;
  const quiet = Math.min(period, Math.max(off, result.primaryQuietTime ?? off));
  const edges = [0, ...envelope.slice(1).map(({ time }, n) => (time + envelope[n]!.time) / 2), off].filter(
    (time, n, all) => n === 0 || time > all[n - 1]!,
  );
  const middles = edges.slice(1).map((to, n) => (to + edges[n]!) / 2);
  const sizes = middles.map((middle) => nearestPeak(envelope, middle));
  const last = sizes.at(-1) ?? 0;
  const driven = edges.slice(1).map((to, n) => ({ from: edges[n]!, to, weight: sizes[n]! * (to - edges[n]!) }));
  const after = quiet > off ? [{ from: off, to: quiet, weight: (last / 2) * (quiet - off) }] : [];
  const all = [...driven, ...after];
  const share = (parts: readonly { weight: number }[]): number => parts.reduce((sum, { weight }) => sum + weight, 0);
  const drivenWeight = share(driven);
  // While driven near the crossings the diodes carry little: they are counted with a tenth of the weight.
  const diodeWeight = 0.1 * drivenWeight + share(after);
  const stretches = all.map(({ from, to, weight }, n) => {
    const isDriven = n < driven.length;
    const conducted = drivenWeight > 0 && isDriven ? (conduction * weight) / drivenWeight : 0;
    const freewheeled = diodeWeight > 0 ? (diode * (isDriven ? 0.1 : 1) * weight) / diodeWeight : 0;
    const atChanges = switched.reduce((sum, { time, energy }) => (time > from && time <= to ? sum + energy : sum), 0);
    return { duration: to - from, energy: conducted + freewheeled + atChanges };
  });
  // Nothing may be lost to an envelope without half-cycles.
  const booked = stretches.reduce((sum, { energy }) => sum + energy, 0);
  const due = conduction + diode + switched.reduce((sum, { energy }) => sum + energy, 0);
  if (stretches.length === 0) return due > 0 ? [{ duration: Math.min(period, result.at), energy: due }] : [];
  const head = stretches[0]!;
  return [{ ...head, energy: head.energy + Math.max(0, due - booked) }, ...stretches.slice(1)];
}

function nearestPeak(envelope: BurstResult["envelope"], time: Second): number {
  let nearest: BurstResult["envelope"][number] | undefined;
  for (const point of envelope)
    if (!nearest || Math.abs(point.time - time) < Math.abs(nearest.time - time)) nearest = point;
  return nearest?.current ?? 0;
}
