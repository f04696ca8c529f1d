/** One burst of a coil at a setting: simulated, repeated until steady, and every figure of burst and driver read off. */

import { OutOfDomain } from "../catalogue/errors.ts";
import type { Figure, Figures } from "../catalogue/figure.ts";
import { quantities } from "../catalogue/quantities.ts";
import type { Coil } from "../description/coil.ts";
import { reachConstants } from "../stress/index.ts";
import { burstCircuit, type DrivenCoil } from "./burst-circuit.ts";
import type { BurstSetting, BurstStudy } from "./burst-contract.ts";
import { withStreamerDoubt } from "./burst-doubt.ts";
import { type BurstContext, burstFigures } from "./burst-figures.ts";
import { missingFor } from "./burst-missing.ts";
import { remarksOf } from "./burst-remarks.ts";
import { type FullSetting, fullSetting } from "./burst-setting.ts";
import { steadyTrain } from "./burst-train.ts";
import { pictures } from "./burst-waveforms.ts";
import type { Solution } from "./contract.ts";
import { bankFigures } from "./driver-bank.ts";
import { controlFigures, linkFigures } from "./driver-control.ts";
import { burdenFigures, phaseFigures, poleLock, tripFigures } from "./driver-feedback.ts";
import { gateRunFigures, gateStepFigures } from "./driver-gate.ts";
import { loadFigures, supplyFigures } from "./driver-supply.ts";
import { switchStudy } from "./driver-switch.ts";

/**
 * Studies one burst in a steady train.
 *
 * Pure. The model, its conventions and what it leaves out are in docs/burst.md.
 *
 * @param solution   of the same coil
 * @param setting    what a slider has moved; the coil's own where absent
 * @param waveforms  also sample every waveform, and the spectrum (some milliseconds more)
 * @param sure       also run the burst at the ends of what is not known of the streamer, for intervals of what it moves (four bursts more)
 * @returns whatever the file's sections allow: without one that a burst needs, the figures that the others give and `missing`; for a circuit
 *          that cannot be, which the reader and the rules refuse first, a remark in place of the burst
 */
export function study(
  coil: Coil,
  solution: Solution,
  setting: BurstSetting = {},
  { waveforms = false, sure = false }: { readonly waveforms?: boolean; readonly sure?: boolean } = {},
): BurstStudy {
  const full = fullSetting(coil, solution, setting);
  const missing = missingFor(coil, full);
  const alone = sectionFigures(coil);
  if (!isDriven(coil, full)) {
    const frequency = solution.figures.get("poles.lower")?.value;
    const at =
      frequency === undefined ? [] : frequencyFigures(coil, { frequency, from: "poles.lower", duty: undefined });
    return withoutBurst({
      setting: full,
      figures: inOrder([...alone, ...at]),
      missing,
      remarks: idleRemarks(coil, full),
    });
  }
  const made = attempt(() => contextOf({ coil, solution, setting: full, held: setting.busVoltage !== undefined }));
  if ("refused" in made) {
    return withoutBurst({ setting: full, figures: inOrder(alone), missing, remarks: [made.refused] });
  }
  const context = made;
  const { circuit, train } = context;
  const { result } = train;
  const switched = switchStudy(context);
  const lock = poleLock(context);
  const measured = result.meanFrequency;
  const run = {
    frequency: measured ?? circuit.operatingFrequency,
    from: measured === undefined ? "poles.lower" : "burst.frequency",
    duty: (result.gatesOffTime ?? train.onTime) / train.period,
  };
  const shown = waveforms ? pictures(train, circuit.dielectricShare) : undefined;
  return {
    setting: full,
    figures: inOrder([
      ...alone,
      ...(sure ? withStreamerDoubt(burstFigures(context), train) : burstFigures(context)),
      ...bankFigures(context),
      ...switched.figures,
      ...loadFigures(context),
      ...frequencyFigures(coil, run),
      ...burdenFigures(context),
      ...linkFigures(context),
    ]),
    missing,
    reached: result.reached,
    remarks: remarksOf(context, lock),
    envelope: result.envelope.map(({ time, current }) => [time, current] as const),
    commutations: switched.commutations,
    lock,
    train: { bursts: train.bursts, settled: train.settled },
    breakoutTime: result.breakoutTime,
    tripTime: result.tripTime,
    spectrum: shown?.spectrum ?? { frequency: new Float64Array(0), amplitude: new Float64Array(0) },
    junction: { time: switched.junction.time, temperature: switched.junction.temperature },
    waveforms: shown?.waveforms,
  };
}

/** Whether there is a burst to simulate. */
export function isDriven(coil: Coil, { onTime, busVoltage }: FullSetting): coil is DrivenCoil {
  const { primary, tank, bridge, supply, feedback } = coil;
  return Boolean(primary && tank && bridge && supply && feedback) && onTime > 0 && busVoltage > 0;
}

/** What the sections say by themselves. */
function sectionFigures({ supply, bridge, feedback }: Coil): Figure[] {
  return [
    ...(supply ? [...supplyFigures(supply), ...controlFigures(supply)] : []),
    ...(bridge ? gateStepFigures(bridge) : []),
    ...(feedback ? tripFigures(feedback) : []),
  ];
}

/** What they say at a frequency. */
function frequencyFigures(
  { bridge, feedback }: Coil,
  { frequency, from, duty }: { frequency: number; from: string; duty: number | undefined },
): Figure[] {
  return [
    ...(bridge ? gateRunFigures({ bridge, frequency, frequencyFrom: from, duty }) : []),
    ...(feedback ? phaseFigures(feedback, frequency, from) : []),
  ];
}

/** The train at rest of a coil with everything that a burst needs; more than one mode begins where one alone has settled. */
function contextOf({
  coil,
  solution,
  setting,
  held,
}: {
  coil: DrivenCoil;
  solution: Solution;
  setting: FullSetting;
  held: boolean;
}): BurstContext {
  const circuit = burstCircuit(coil, solution, setting);
  const parts = { supply: coil.supply, setting, held, constants: reachConstants(coil.streamer) };
  const from =
    setting.modes > 1
      ? steadyTrain({ ...parts, circuit: burstCircuit(coil, solution, { ...setting, modes: 1 }) }).start
      : undefined;
  return { coil, solution, setting, circuit, train: steadyTrain({ ...parts, circuit, ...(from ? { from } : {}) }) };
}

/** A circuit that cannot be, such as a coupling of one, has no burst, and says so instead of taking all other figures with it. */
function attempt<T>(make: () => T): T | { readonly refused: string } {
  try {
    return make();
  } catch (problem) {
    if (problem instanceof OutOfDomain) return { refused: `this circuit cannot be computed: ${problem.message}` };
    throw problem;
  }
}

function idleRemarks(coil: Coil, { onTime, busVoltage }: FullSetting): string[] {
  return [
    ...(coil.supply && !(busVoltage > 0) ? ["the bus is at 0 V: there is no burst"] : []),
    ...(coil.interrupter && !(onTime > 0) ? ["the on-time is 0 s: there is no burst"] : []),
  ];
}

function withoutBurst(parts: Pick<BurstStudy, "setting" | "figures" | "missing" | "remarks">): BurstStudy {
  const none = new Float64Array(0);
  return {
    ...parts,
    reached: "endTime",
    envelope: [],
    commutations: [],
    breakoutTime: undefined,
    tripTime: undefined,
    spectrum: { frequency: none, amplitude: none },
    junction: { time: none, temperature: none },
    waveforms: undefined,
  };
}

/** In the order of the catalogue, whatever order they were made in. */
function inOrder(figures: readonly Figure[]): Figures {
  const made = new Map(figures.map((each) => [each.id, each]));
  const ordered = new Map<string, Figure>();
  for (const id of quantities.keys()) {
    const found = made.get(id);
    if (found) ordered.set(id, found);
  }
  return ordered;
}
