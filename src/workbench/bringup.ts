/** The staged bring-up sheet of a coil as data. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { CoilFile } from "../description/coil-file.ts";
import { type LowBurst, lowBurst } from "./bringup-bursts.ts";
import { coldStages } from "./bringup-cold.ts";
import type { BringUp, CurrentTransformerAdvice, DischargeAdvice } from "./bringup-contract.ts";
import { pickupAdvice } from "./bringup-pickup.ts";
import { poweredStages } from "./bringup-powered.ts";
import type { BurstStudy } from "./burst-contract.ts";
import type { Solution } from "./contract.ts";

/** Parts of the full bus for the first steps, and the least [V] that is worth one. */
const busSteps = [0.08, 0.15, 0.3];
const leastBus = 12;
/** Bursts at a low bus are kept this short at first [s]. */
const shortBurst = 60e-6;

export interface BringUpOptions {
  readonly file: CoilFile;
  readonly solution: Solution;
  /** Of the coil as drawn, at its own setting. */
  readonly study: BurstStudy;
}

/**
 * The stages of a first power-up for this coil, each with what to connect, what a probe must show and when to stop.
 *
 * Numbers are the predictions of this file with their 90 % intervals; limits of practice are named as such in docs/bench.md. The sheet gives
 * no permission: it names what must be true before the next step, not that the step is without danger.
 *
 * @throws OutOfDomain  the file has no coil
 */
export function bringup({ file, solution, study }: BringUpOptions): BringUp {
  if (!file.coil) throw new OutOfDomain("bringup", "needs a coil");
  const full = study.setting.busVoltage;
  const onTime = Math.min(shortBurst, study.setting.onTime > 0 ? study.setting.onTime : shortBurst);
  const low = busSteps
    .map((part) => roundedBus(Math.max(leastBus, part * full)))
    .filter((bus, n, all) => bus < full && all.indexOf(bus) === n)
    .flatMap((bus): readonly LowBurst[] => {
      const burst = lowBurst({ file, solution, bus, onTime });
      return burst ? [burst] : [];
    });
  const context = { file, solution, study, low };
  const value = (id: string) => study.figures.get(id)?.value ?? solution.figures.get(id)?.value;
  const first = low[0];
  const frequency = value("burst.frequency") ?? value("poles.lower");
  const topFull = value("burst.peakTopVoltage");
  return {
    stages: [...coldStages(context), ...poweredStages(context)],
    discharge: dischargeAdvice(context),
    pickup:
      frequency === undefined || topFull === undefined
        ? undefined
        : pickupAdvice(
            solution,
            {
              topVoltage: first?.topVoltage.value ?? 0,
              primaryCurrent: first?.peakCurrent.value ?? 0,
              frequency,
            },
            { topVoltage: topFull, primaryCurrent: value("burst.peakPrimaryCurrent") ?? 0, frequency },
          ),
    currentTransformer: currentTransformer(context),
    earth: earthAdvice,
    cautions,
  };
}

export interface BringUpContext {
  readonly file: CoilFile;
  readonly solution: Solution;
  readonly study: BurstStudy;
  /** Lowest first; empty where the file lacks what a burst needs. */
  readonly low: readonly LowBurst[];
}

/** To a voltage that a bench supply or a transformer's tap can be set to. */
const roundedBus = (bus: number): number => (bus < 50 ? 2 * Math.round(bus / 2) : 10 * Math.round(bus / 10));

function dischargeAdvice({ study, solution }: BringUpContext): DischargeAdvice {
  const value = (id: string) => study.figures.get(id)?.value;
  const { supply } = solution.coil;
  return {
    time: value("bus.dischargeTime"),
    storedEnergy: value("bus.storedEnergy"),
    tankVoltage: value("burst.peakTankVoltage"),
    steps: [
      "Switch off, pull the plug, and let everybody see that it is pulled.",
      supply && supply.capacitors.bleeder === undefined
        ? "There is no bleeder in the file: the bus stays charged for hours. Fit one; until then discharge by hand every time."
        : "Wait that time. A bleeder that has failed open gives no sign: the meter decides, not the clock.",
      "Measure the bus with a meter that was just seen to work on a known voltage, and see it below 60 V d.c.",
      "Discharge through a resistor on an insulated stick, then short the bus, and leave the short on while hands are inside.",
      "Short the tank capacitor too: nothing in the file bleeds it, and film capacitors recover charge after a short.",
      "Hang the earth lead on the top load before touching the secondary.",
    ],
  };
}

function currentTransformer({ solution, study }: BringUpContext): CurrentTransformerAdvice | undefined {
  const transformer = solution.coil.feedback?.transformer;
  if (!transformer) return undefined;
  const { ratio, burden } = transformer;
  const peak = study.figures.get("burst.peakPrimaryCurrent")?.value;
  return {
    ratio,
    burden,
    scale: ratio / burden,
    voltageAtPeak: peak === undefined ? undefined : (peak * burden) / ratio,
  };
}

/** Common practice, no source. */
const earthAdvice: readonly string[] = [
  "The base of the secondary goes by a short, wide strap to an earth rod of its own, driven as near below the coil as the ground allows; the strike ring and the rods about the coil go to the same strap.",
  "It does not go to the building's protective earth alone: the burst's current would look for its way through everybody's sockets.",
  "Metal cases and the heatsink go to protective earth, and stay there.",
  "Measure every earth with a meter from end to end before each session: a lead that looks whole may not be.",
];

const cautions: readonly string[] = [
  "The parts behind the rectifier are live against earth at all times while the mains are on, and can kill with the coil silent.",
  "Never work alone; the second person stands at the mains switch, knows where it is without looking, and touches nothing else.",
  "One hand, dry floor, no rings. Goggles: a switch that fails throws its lid.",
  "Local codes and licensed practice come first. This sheet is no permission to switch on, and a stage passed is no promise for the next.",
];
