/** Figures of the gate drive. */
import { type Figure, figure } from "../catalogue/figure.ts";
import { gateChargePower, gateFlux, gateMagnetisingCurrent } from "../circuit/gate-drive.ts";
import type { Bridge } from "../description/coil.ts";
import { gateStep } from "../stress/index.ts";
import type { Henry, Hertz, Ratio, SquareMetre } from "../units/si.ts";

type Gate = Bridge["gate"];
type Transformer = NonNullable<Gate["transformer"]>;

/** Relative permeability of power ferrite and magnetic path over the root of the section, as factors either way. From memory. */
const core = { permeability: 2300, pathPerRootArea: 8.3, spread: 2.2 };
const vacuumPermeability = 4e-7 * Math.PI;

/** What the gate section alone says: a step into the gate. A transformer swings it from minus to plus the drive. */
export function gateStepFigures({ gate }: Bridge): Figure[] {
  const leakage = gate.transformer?.leakage ?? 0;
  if (!(gate.resistor + leakage > 0)) return [];
  const step = gateStep({ swing: swingOf(gate), charge: gate.charge, resistor: gate.resistor, leakage });
  const from = ["bridge.gate"];
  const source = "gate-step";
  const note = "the gate as one capacitor, charge over swing; the driver's and the switch's own resistance slow it";
  return [
    figure("gate.peakCurrent", step.peakCurrent, { from, source, note }),
    figure("gate.riseTime", step.riseTime, { from, source, low: 0.5 * step.riseTime, high: 2 * step.riseTime, note }),
    figure("gate.overshoot", step.overshoot, { from, source }),
  ];
}

/** @param duty  driven share of the time; undefined where no interrupter says */
export function gateRunFigures({
  bridge: { gate },
  frequency,
  frequencyFrom,
  duty,
}: {
  bridge: Bridge;
  frequency: Hertz;
  frequencyFrom: string;
  duty: Ratio | undefined;
}): Figure[] {
  const { transformer, drive } = gate;
  const swing = swingOf(gate);
  return [
    ...(transformer ? transformerFigures({ transformer, drive, frequency, frequencyFrom }) : []),
    ...(duty === undefined
      ? []
      : [
          figure("gate.chargePower", gateChargePower({ charge: gate.charge, swing, frequency, duty }), {
            from: ["bridge.gate.charge", "bridge.gate.drive", frequencyFrom, "burst.driveTime", "interrupter.rate"],
            source: "gate-transformer",
          }),
        ]),
  ];
}

const swingOf = ({ drive, transformer }: Gate): number => (transformer ? 2 * drive : drive);

function transformerFigures({
  transformer,
  drive,
  frequency,
  frequencyFrom,
}: {
  transformer: Transformer;
  drive: number;
  frequency: Hertz;
  frequencyFrom: string;
}): Figure[] {
  const { turns, coreArea } = transformer;
  const { swing, steady } = gateFlux({ drive, frequency, turns, coreArea });
  const from = ["bridge.gate.drive", "bridge.gate.transformer", frequencyFrom];
  const source = "gate-transformer";
  const inductance = magnetisingInductance(turns, coreArea);
  const current = gateMagnetisingCurrent({ drive, frequency, inductance });
  return [
    figure("gate.transformer.flux", swing, { from, source }),
    figure("gate.transformer.fluxSteady", steady, { from, source }),
    figure("gate.transformer.magnetisingCurrent", current, {
      from,
      source,
      low: current / core.spread,
      high: current * core.spread,
      note: "the file has no magnetising inductance: taken for a closed core of power ferrite of that section; measure it",
    }),
  ];
}

/** µ0·µr·N²·A over the path of a usual ring or double-E core. */
function magnetisingInductance(turns: number, coreArea: SquareMetre): Henry {
  const path = core.pathPerRootArea * Math.sqrt(coreArea);
  return (vacuumPermeability * core.permeability * turns * turns * coreArea) / path;
}
