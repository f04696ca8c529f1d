/** The coil's circuit for one burst, from the file and its solution. */

import { modeOfResonance } from "../circuit/mode-of-resonance.ts";
import type { BurstNetwork, SecondaryMode, Streamer } from "../circuit/network.ts";
import { networkOfCoil } from "../circuit/network-of-coil.ts";
import type { Bridge, Coil, Feedback, Primary, Supply, Tank } from "../description/coil.ts";
import { copperResistivity } from "../fields/wire-loss.ts";
import { windingLoss } from "../fields/wire-loss-winding.ts";
import type { Ampere, Hertz, Kelvin, Ohm, Ratio, Volt } from "../units/si.ts";
import type { FullSetting } from "./burst-setting.ts";
import type { Solution } from "./contract.ts";
import { type FieldStage, fieldStage } from "./field-stage.ts";

/** A coil with everything that a burst needs. */
export interface DrivenCoil extends Coil {
  readonly primary: Primary;
  readonly tank: Tank;
  readonly bridge: Bridge;
  readonly supply: Supply;
  readonly feedback: Feedback;
}

export interface BurstCircuit {
  /** Without a streamer, the bus at the setting's voltage. */
  readonly network: BurstNetwork;
  /** Part of the primary loop's resistance that is the dielectric of the bank. */
  readonly dielectricShare: Ratio;
  /** [Hz], of the pole that the losses and the streamer are reckoned at. */
  readonly operatingFrequency: Hertz;
  with(changes: { readonly busVoltage: Volt; readonly streamer: Streamer | undefined }): BurstNetwork;
}

/** Hysteresis of a usual comparator at the burden, half of it [V]; and in amperes where there is no burden. Common practice, no source. */
const comparator = { voltage: 5e-3, primaryCurrent: 1, secondaryCurrent: 5e-3 };

/**
 * The circuit: mode 1 from the figures, higher modes from the field stage with the loss of the winding at their own frequency.
 *
 * @param setting  modes, bus voltage and sense
 * @throws OutOfDomain  as `modeOfResonance` and `networkOfCoil`
 * @source distributed-resonator, burst-simulation
 */
export function burstCircuit(coil: DrivenCoil, solution: Solution, setting: FullSetting): BurstCircuit {
  const { bridge, supply, tank, feedback } = coil;
  const value = (id: string): number => solution.figures.get(id)!.value;
  const operatingFrequency = value("poles.lower");
  const resonator = {
    primaryInductance: value("primary.inductance"),
    primaryResistance: value("primary.resistanceAc"),
    operatingFrequency,
    modes: [firstMode(solution), ...(setting.modes > 1 ? higherModes(coil, setting.modes) : [])],
  };
  const made = networkOfCoil({ bridge, supply, tank, feedback, resonator, threshold: thresholdOf(feedback) });
  const network: BurstNetwork = {
    ...made,
    bus: { ...made.bus, voltage: setting.busVoltage },
    feedback: { ...made.feedback, reversed: setting.senseReversed },
  };
  const dielectric: Ohm =
    (tank.bank.dissipation ?? 0) / (2 * Math.PI * operatingFrequency * made.primary.tankCapacitance);
  return {
    network,
    dielectricShare: network.primary.resistance > 0 ? dielectric / network.primary.resistance : 0,
    operatingFrequency,
    with: ({ busVoltage, streamer }) => ({
      ...network,
      bus: { ...network.bus, voltage: busVoltage },
      ...(streamer ? { streamer } : {}),
    }),
  };
}

/** Half of the comparator's hysteresis in amperes of the sensed current. */
export function thresholdOf({ sense, transformer }: Feedback): Ampere {
  if (transformer) return (comparator.voltage * transformer.ratio) / transformer.burden;
  return sense === "secondaryCurrent" ? comparator.secondaryCurrent : comparator.primaryCurrent;
}

function firstMode({ figures }: Solution): SecondaryMode {
  const value = (id: string): number => figures.get(id)!.value;
  const energyInductance = value("secondary.energyInductance");
  return modeOfResonance({
    frequency: value("secondary.f1"),
    energyInductance,
    energyCapacitance: value("secondary.energyCapacitance"),
    mutual: value("coupling.kMode1") * Math.sqrt(value("primary.inductance") * energyInductance),
    q: value("secondary.qUnloaded"),
  });
}

function higherModes(coil: DrivenCoil, count: number): SecondaryMode[] {
  const stage = fieldStage(coil);
  const { mutuals } = stage.primaryAt!(coil.primary.tap);
  return stage.modes.slice(1, count).map((mode, m) =>
    modeOfResonance({
      frequency: mode.frequency,
      energyInductance: mode.energyInductance,
      energyCapacitance: mode.energyCapacitance,
      mutual: mutuals[m + 2]!,
      q:
        (2 * Math.PI * mode.frequency * mode.energyInductance) /
        modeResistance(stage, m + 1, coil.site.air.temperature),
      polarity: mode.baseCurrent < 0 ? -1 : 1,
    }),
  );
}

const resistances = new WeakMap<FieldStage, Map<string, Ohm>>();

/** Skin and proximity loss of the winding in a mode at that mode's frequency, kept with the stage. */
function modeResistance(stage: FieldStage, m: number, temperature: Kelvin): Ohm {
  const known = resistances.get(stage) ?? new Map<string, Ohm>();
  resistances.set(stage, known);
  const key = `${m} ${temperature}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  const { frequency, turnCurrent, baseCurrent } = stage.modes[m]!;
  const { winding } = stage.geometry;
  const { resistanceAc } = windingLoss({
    winding,
    wireDiameter: winding.wireDiameter,
    frequency,
    resistivity: copperResistivity(temperature),
    current: turnCurrent.map((current) => current / baseCurrent),
  });
  known.set(key, resistanceAc);
  return resistanceAc;
}
