/** Figures of one burst of the steady train. */
import { type CrossCheck, type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import { coldFactor, reachConstants, rememberedEnergy } from "../stress/index.ts";
import type { Second } from "../units/si.ts";
import type { BurstCircuit, DrivenCoil } from "./burst-circuit.ts";
import type { FullSetting } from "./burst-setting.ts";
import type { SteadyTrain } from "./burst-train.ts";
import type { Solution } from "./contract.ts";

/** What the figures of a burst are made from. */
export interface BurstContext {
  readonly coil: DrivenCoil;
  readonly solution: Solution;
  readonly setting: FullSetting;
  readonly circuit: BurstCircuit;
  readonly train: SteadyTrain;
}

/** What every result of the simulation stands on. */
const circuitKeys = [
  "tank.capacitance",
  "tank.inductance",
  "tank.leads.resistance",
  "tank.bank.dissipation",
  "primary.resistanceAc",
  "coupling.kMode1",
  "secondary.f1",
  "secondary.energyCapacitance",
  "secondary.qUnloaded",
  "bridge",
  "bus.voltage",
  "supply.capacitors",
  "feedback",
  "interrupter.onTime",
  "interrupter.rate",
] as const;
const simulation = { from: circuitKeys, source: "burst-simulation" } as const;

export function burstFigures(context: BurstContext): Figure[] {
  return [...courseFigures(context), ...ledgerFigures(context), ...streamerFigures(context), ...heatFigures(context)];
}

function courseFigures({ setting, train, circuit }: BurstContext): Figure[] {
  const { result, onTime } = train;
  const optional = (id: string, value: number | undefined, note?: string): Figure[] =>
    value === undefined ? [] : [figure(id, value, { ...simulation, ...(note === undefined ? {} : { note }) })];
  return [
    ...optional("burst.frequency", result.meanFrequency),
    figure("burst.peakPrimaryCurrent", result.peakPrimaryCurrent, {
      ...simulation,
      crossChecks: [ringUpCheck(circuit, result.gatesOffTime ?? onTime, train.network.bus.voltage)],
    }),
    figure("burst.peakTankVoltage", result.peakTankVoltage, simulation),
    figure("burst.peakTopVoltage", result.peakTopVoltage, {
      ...simulation,
      crossChecks: [transferCheck(train)],
      note:
        setting.modes === 1
          ? "of mode 1 alone; with modes 2 and 3 a few per cent more or less"
          : "sum of the modes; those above are left out",
    }),
    figure("burst.rmsPrimaryCurrent", Math.sqrt(result.primaryCurrentSquare / train.period), simulation),
    ...optional(
      "burst.driveTime",
      result.gatesOffTime,
      result.tripTime === undefined ? undefined : "cut short by the overcurrent trip",
    ),
    figure("burst.halfCycles", result.halfCycles, simulation),
    ...optional("burst.notchTime", result.notch?.time),
    ...optional("burst.breakoutTime", result.breakoutTime),
    ...optional("burst.tripTime", result.tripTime),
    figure("burst.energyDrawn", result.energyDrawn, simulation),
    figure("burst.energyReturned", result.energyReturned, simulation),
  ];
}

/** The square wave's fundamental on the tank alone: V·t/(2L), from which losses and the secondary only take. */
function ringUpCheck({ network }: BurstCircuit, driven: Second, busVoltage: number): CrossCheck {
  const square = network.bridge === "full" ? busVoltage : busVoltage / 2;
  return {
    name: "ring-up of the tank alone, without loss",
    value: ((4 / Math.PI) * square * driven) / (2 * network.primary.inductance),
    validity: "an upper bound once a few half-cycles have passed; the secondary takes energy away",
    valid: false,
    source: "interrupter-ring-up",
  };
}

/** All of the tank's energy at its peak gathered in mode 1. */
function transferCheck({ result, network }: SteadyTrain): CrossCheck {
  const mode = network.modes[0]!;
  return {
    name: "all of the tank's peak energy in mode 1",
    value: result.peakPrimaryCurrent * Math.sqrt(network.primary.inductance / mode.capacitance),
    validity: "a bound for energy that passes over once; a bridge that goes on driving can exceed it",
    valid: false,
    source: "bank-energy-bound",
  };
}

export function storedChange({ result }: SteadyTrain): number {
  return result.ledger.storedAtEnd - result.ledger.storedAtStart;
}

function ledgerFigures({ circuit, train }: BurstContext): Figure[] {
  const { ledger } = train.result;
  const tank = circuit.dielectricShare * ledger.primary;
  const parts = {
    switches: ledger.switches,
    diodes: ledger.diodes,
    bus: ledger.busEsr,
    primary: ledger.primary - tank,
    tank,
    secondary: ledger.secondary,
    streamer: ledger.streamer,
    stored: storedChange(train),
  };
  return Object.entries(parts).map(([part, value]) => figure(`burst.energy.${part}`, value, simulation));
}

export function streamerFigures({ coil, setting, train }: Omit<BurstContext, "solution" | "circuit">): Figure[] {
  const { channel, result, network, period } = train;
  if (!channel) return [];
  const told = Object.keys(coil.streamer ?? {}).map((key) => `streamer.${key}`);
  const from = [
    "burst.energy.streamer",
    "burst.peakTopVoltage",
    "interrupter.rate",
    "topload.breakoutVoltage",
    ...told,
  ];
  const source = "channel-growth";
  if (result.breakoutTime === undefined || !network.streamer) {
    return [
      figure("burst.streamerLength", 0, {
        from,
        source,
        low: 0,
        high: unlitReach(train, coil),
        note: `the top stays below the ${Math.round(setting.breakoutVoltage / 1e3)} kV at which it breaks out; the upper end is for a top with a point, a scratch or dust on it`,
      }),
    ];
  }
  const { capacitance, resistance } = network.streamer;
  return [
    figure("burst.streamerLength", channel.length, {
      from,
      source,
      low: channel.low,
      high: channel.high,
      crossChecks: [powerLawCheck(result.ledger.streamer / period)],
      note:
        told.length > 0
          ? `${told.join(", ")} as lengths seen of this coil say; the rest is common practice, no source`
          : "common practice, no source: to a factor of two or three either way",
    }),
    figure("burst.streamerByEnergy", channel.byEnergy, { from: ["burst.energy.streamer", "interrupter.rate"], source }),
    figure("burst.streamerByVoltage", channel.byVoltage, { from: ["burst.peakTopVoltage"], source }),
    figure("burst.streamerCold", channel.cold, {
      from: ["burst.peakTopVoltage"],
      source: "streamer-gradient",
      low: channel.cold / coldFactor,
      high: channel.cold * coldFactor,
      note: "known for single impulses; bursts of a carrier differ",
    }),
    figure("burst.streamerCapacitance", capacitance, { from: ["burst.streamerLength"], source: "channel-capacitance" }),
    figure("burst.streamerResistance", resistance, {
      from: ["burst.streamerCapacitance", "poles.lower"],
      source: "channel-capacitance",
      low: resistance / 3,
      high: resistance * 3,
    }),
    figure("burst.streamerPower", result.ledger.streamer / period, {
      from: ["burst.energy.streamer", "interrupter.rate"],
      source: "burst-train",
    }),
  ];
}

/** What a point on the top could draw: all that the bus gave at the lightest channel, and the peak voltage at the lowest gradient. */
function unlitReach({ result, period }: SteadyTrain, { streamer }: Coil): number {
  const { energyPerMetre, gradient } = reachConstants(streamer);
  const energy = rememberedEnergy({ perBurst: result.energyDrawn, period });
  return Math.min(energy / energyPerMetre.least, result.peakTopVoltage / gradient.least);
}

function powerLawCheck(power: number): CrossCheck {
  return {
    name: "workshop's power law, 0.045 m per root of a watt",
    value: 0.045 * Math.sqrt(Math.max(0, power)),
    validity: "0.03 to 0.06 m per root of a watt; a cross-check only",
    valid: true,
    source: "reach-power-law",
  };
}

function heatFigures({ solution, circuit, train }: BurstContext): Figure[] {
  const { result, period } = train;
  const perVolt = (id: string): number => solution.figures.get(id)!.value;
  const { ledger } = result;
  const tank = circuit.dielectricShare * ledger.primary;
  return [
    figure("primary.heat", (ledger.primary - tank) / period, {
      from: ["burst.energy.primary", "interrupter.rate"],
      source: "burst-train",
      note: "coil and leads together; joints are not in it",
    }),
    figure("secondary.heat", Math.max(0, ledger.secondary + storedChange(train)) / period, {
      from: ["burst.energy.secondary", "burst.energy.stored", "interrupter.rate"],
      source: "burst-train",
      note: "what still rings at the end is counted here",
    }),
    figure("winding.turnVoltage", perVolt("winding.turnVoltagePerVolt") * result.peakTopVoltage, {
      from: ["winding.turnVoltagePerVolt", "burst.peakTopVoltage"],
      source: "distributed-resonator",
    }),
    figure("winding.peakField", perVolt("winding.peakFieldPerVolt") * result.peakTopVoltage, {
      from: ["winding.peakFieldPerVolt", "burst.peakTopVoltage"],
      source: "distributed-resonator",
    }),
  ];
}
