/** The staged bring-up sheet of a coil as data. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { CoilFile } from "../description/coil-file.ts";
import { type LowBurst, lowBurst } from "./bringup-bursts.ts";
import { coldStages } from "./bringup-cold.ts";
import type { BringUp, DischargeAdvice, PickupInstrument } from "./bringup-contract.ts";
import { currentTransformerAdvice, earthAdviceOf, groundLeadAdvice, runFrequency } from "./bringup-instruments.ts";
import { pickupAdvice } from "./bringup-pickup.ts";
import { poweredStages } from "./bringup-powered.ts";
import type { BurstStudy } from "./burst-contract.ts";
import type { Solution } from "./contract.ts";

/** Parts of the full bus for the first steps, and the least [V] that is worth one. */
const busSteps = [0.08, 0.15, 0.3];
const furtherSteps = [0.4, 0.5, 0.65, 0.8];
const leastBus = 12;
/** Bursts at a low bus are kept this short at first [s]. */
const shortBurst = 60e-6;

export interface BringUpOptions {
  readonly file: CoilFile;
  readonly solution: Solution;
  /** Of the coil as drawn, at its own setting. */
  readonly study: BurstStudy;
  /** Somebody's own wire or loop, to be reckoned beside the usual ones. */
  readonly pickup?: PickupInstrument;
}

/**
 * The stages of a first power-up for this coil, each with what to connect, what a probe must show and when to stop.
 *
 * Numbers are the predictions of this file with their 90 % intervals; limits of practice are named as such in docs/bench.md. The sheet gives
 * no permission: it names what must be true before the next step, not that the step is without danger.
 *
 * @throws OutOfDomain  the file has no coil
 */
export function bringup({ file, solution, study, pickup }: BringUpOptions): BringUp {
  if (!file.coil) throw new OutOfDomain("bringup", "needs a coil");
  const full = study.setting.busVoltage;
  const onTime = Math.min(shortBurst, study.setting.onTime > 0 ? study.setting.onTime : shortBurst);
  const burstsAt = (parts: readonly number[]): readonly LowBurst[] =>
    parts
      .map((part) => roundedBus(Math.max(leastBus, part * full)))
      .filter((bus, n, all) => bus < full && all.indexOf(bus) === n)
      .flatMap((bus) => lowBurst({ file, solution, bus, onTime }) ?? []);
  const lowest = burstsAt(busSteps);
  // A comparator that nothing reaches at these steps is tried on until one runs.
  const further = lowest.length > 0 && lowest.every(({ catches }) => !catches) ? burstsAt(furtherSteps) : [];
  const low = [...lowest, ...further.slice(0, 1 + further.findIndex(({ catches }) => catches))];
  const context = { file, solution, study, low };
  const value = (id: string) => study.figures.get(id)?.value ?? solution.figures.get(id)?.value;
  const first = low[0];
  const frequency = runFrequency(solution, study);
  const topFull = value("burst.peakTopVoltage");
  const moments =
    frequency === undefined || topFull === undefined
      ? undefined
      : {
          low: {
            topVoltage: first?.topVoltage.value ?? 0,
            primaryCurrent: first?.peakCurrent.value ?? 0,
            frequency,
          },
          full: { topVoltage: topFull, primaryCurrent: value("burst.peakPrimaryCurrent") ?? 0, frequency },
        };
  return {
    stages: [...coldStages(context), ...poweredStages(context)],
    discharge: dischargeAdvice(context),
    pickup: moments && pickupAdvice(solution, moments, pickup),
    currentTransformer: currentTransformerAdvice(solution, study),
    groundLead: moments && groundLeadAdvice(solution, moments.full, full),
    earth: earthAdvice,
    earthStrap: moments && earthAdviceOf(solution, moments.full),
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
