/** Every teaching picture that a coil's own numbers allow. */
import type { Coil } from "../../description/coil.ts";
import type { Approach } from "../../workbench/approach.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import type { Solution } from "../../workbench/contract.ts";
import { energySeeSaw } from "./energy-see-saw.ts";
import { halfCyclePicture } from "./half-cycle-picture.ts";
import { handDetunes } from "./hand-detunes.ts";
import type { Picture } from "./picture.ts";
import { rectifierPicture } from "./rectifier-picture.ts";
import { skinDepthPicture } from "./skin-depth.ts";
import { trainSpectrum } from "./train-spectrum.ts";
import { twoPendulums } from "./two-pendulums.ts";

export interface PictureInputs {
  readonly coil: Coil;
  readonly solution: Solution;
  /** With its waveforms. */
  readonly study: BurstStudy;
  /** Absent where nobody could be put beside the coil. */
  readonly approach: Approach | undefined;
}

/** What each picture takes of a coil's file, by its id. */
export const pictureNeeds: Readonly<Record<string, string>> = {
  rectifier: "a supply and a burst that loads it",
  "half-cycle": "a tank, a bridge and a burst",
  "energy-see-saw": "a tank and a burst",
  "two-pendulums": "a tank coupled to the secondary",
  approach: "a winding, and room for somebody beside the coil",
  "train-spectrum": "an interrupter with on-time and rate",
  "skin-depth": "a secondary",
};

/** In the order in which somebody would tell it, from the plug to the hand. What a coil's file does not allow is left out. */
export function picturesOfCoil({ coil, solution, study, approach }: PictureInputs): readonly Picture[] {
  const number = (id: string) => (solution.figures.get(id) ?? study.figures.get(id))?.value;
  const [capacitance, inductance] = [number("tank.capacitance"), number("tank.inductance")];
  const [lower, upper, coupling] = [number("poles.lower"), number("poles.upper"), number("coupling.k")];
  const [bus, power] = [number("bus.voltage"), number("mains.power")];
  const peakVoltage = number("burst.peakTankVoltage");
  const frequency = number("burst.frequency") ?? number("secondary.f1");
  const { onTime, rate } = study.setting;
  const { supply, bridge, secondary } = coil;
  const store = capacitance !== undefined && inductance !== undefined ? { capacitance, inductance } : undefined;
  return [
    supply && bus && power !== undefined
      ? rectifierPicture({
          voltage: supply.mains.voltage,
          frequency: supply.mains.frequency,
          rectifier: supply.rectifier,
          capacitance: busCapacitance(supply),
          load: power / bus,
        })
      : undefined,
    store && bridge && study.waveforms
      ? halfCyclePicture({
          waves: study.waveforms,
          store,
          kind: bridge.kind,
          commutations: study.commutations.map(({ time }) => time),
        })
      : undefined,
    store && peakVoltage ? energySeeSaw({ ...store, peakVoltage }) : undefined,
    lower && upper && upper > lower && coupling ? twoPendulums({ lower, upper, coupling }) : undefined,
    approach ? handDetunes(approach) : undefined,
    frequency && onTime > 0 && rate > 0 ? trainSpectrum({ carrier: frequency, onTime, rate }) : undefined,
    frequency ? skinDepthPicture({ frequency, wire: secondary.wire.bare }) : undefined,
  ].filter((picture) => picture !== undefined);
}

/** Of the whole bus; a doubler's two banks are in series. */
function busCapacitance({ capacitors, rectifier }: NonNullable<Coil["supply"]>): number {
  const bank = (capacitors.each * capacitors.parallel) / capacitors.series;
  return rectifier === "doubler" ? bank / 2 : bank;
}
