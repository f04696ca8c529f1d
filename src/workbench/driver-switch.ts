/** Losses and junction temperature of one switch, from the currents that are really switched. */

import type { BurstResult, GateChange } from "../burst/index.ts";
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Bridge } from "../description/coil.ts";
import {
  type JunctionCourse,
  junctionCourse,
  turnOffEnergy,
  turnOnEnergy,
  turnOnOverTurnOff,
} from "../stress/index.ts";
import type { Joule, Second, Volt } from "../units/si.ts";
import type { Commutation } from "./burst-contract.ts";
import type { BurstContext } from "./burst-figures.ts";
import { heatOfSwitch, type Side } from "./driver-heat.ts";

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
  readonly side: Side;
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
  const courseOf = (side: Side): JunctionCourse =>
    junctionCourse({
      stretches: heatOfSwitch({
        side,
        device: network.switch,
        result,
        conduction: 2 * parts.conduction,
        diode: 2 * parts.diode,
        // Of all switches that change at once, this one has its part.
        pulses: switchings
          .filter((at) => at.side === side)
          .map((at) => ({ time: at.time, energy: 2 * (energyOf("off", at) + energyOf("on", at)) })),
        period,
      }),
      period,
      terms: bridge.switch.thermal,
      heatsink: bridge.heatsink,
    });
  const [upper, lower] = [courseOf("upper"), courseOf("lower")];
  const junction = upper.peak >= lower.peak ? upper : lower;
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
      note: "in °C, reckoned in kelvin; of the side that gets hotter; switch and diode in one thermal network, losses as at the data-sheet temperature",
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
    // A current that flows on from the other side is the business of the side that is put on; else of the one that is put off.
    const side = (on > 0 ? upper : before.upper) ? "upper" : "lower";
    before = { upper, lower };
    return { time, side, off, on };
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
