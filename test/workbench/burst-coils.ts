/** An invented coil for a table, complete, with a point on its top load, and ways to change it without solving its fields again. */
import type { Coil } from "../../src/description/coil.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import type { BurstSetting, BurstStudy } from "../../src/workbench/burst-contract.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import type { Solution } from "../../src/workbench/contract.ts";
import { solve } from "../../src/workbench/solve.ts";

const text = `coilwright: 1
name: Lantern
site: { air: { temperature: 20 °C, pressure: 1013 hPa, humidity: 50 % } }
secondary:
  former: { outerDiameter: 110 mm }
  wire: { bare: 0.315 mm, overall: 0.352 mm }
  turns: 1100
  length: 420 mm
  baseHeight: 180 mm
topload: [ { toroid: { outerDiameter: 300 mm, tubeDiameter: 75 mm, height: 655 mm } } ]
primary:
  angle: 0°
  turns: 7
  tap: 6.6
  firstTurnDiameter: 176 mm
  pitch: 13 mm
  conductor: { tube: 8 mm }
  baseHeight: 185 mm
tank:
  bank: { each: 150 nF, voltage: 2 kV, dissipation: 0.0006, series: 3, parallel: 1 }
  leads: { inductance: 0.35 µH, resistance: 6 mΩ }
bridge:
  kind: half
  switch: { kind: igbt, voltage: 650 V, current: 60 A, pulse: 240 A, vce0: 0.95 V, rce: 14 mΩ, diode: { vf0: 0.9 V, rd: 12 mΩ },
            turnOff: { energy: 0.6 mJ, atCurrent: 60 A, atVoltage: 400 V }, thermal: [ [0.12 K/W, 1 ms], [0.25 K/W, 20 ms] ], junctionMax: 150 °C }
  heatsink: { thermal: 0.9 K/W, ambient: 25 °C }
  gate: { drive: 15 V, resistor: 6.8 Ω, charge: 190 nC, transformer: { turns: 11, coreArea: 40 mm², fluxMax: 200 mT, leakage: 0.6 µH } }
supply:
  mains: 230 V 50 Hz
  rectifier: bridge
  capacitors: { each: 1500 µF, series: 1, parallel: 1, voltage: 450 V, esr: 60 mΩ, bleeder: 47 kΩ }
  inrush: { ntc: 10 Ω }
  fuse: 6.3 A
  control: { transformer: 12 V, current: 1 A, regulation: 15 %, reservoir: 2200 µF, rails: [ { volts: 15 V, dropout: 2 V, load: 180 mA }, { volts: 5 V, dropout: 2 V, load: 60 mA } ] }
feedback:
  sense: primaryCurrent
  transformer: { ratio: 1000, burden: 5.1 Ω }
  delay: 420 ns
  lead: 350 ns
  overcurrent: 180 A
interrupter:
  onTime: 110 µs
  rate: 180 Hz
  limits: { onTime: 150 µs, duty: 4 %, rate: 1.2 kHz, gap: 250 µs }
`;

const read = readCoil(text);
if (!read.coil) throw new Error(`the coil of the tests is not readable: ${JSON.stringify(read.findings)}`);

/** A coil with everything that a burst needs. */
export type WholeCoil = Coil &
  Required<Pick<Coil, "primary" | "tank" | "bridge" | "supply" | "feedback" | "interrupter">>;
export const lantern = read.coil as WholeCoil;
export const lanternSolved = solve(lantern);

/** Of a point on the top load [V]. */
export const pointVoltage = 60e3;

/** The study of Lantern with sections replaced. */
export function studyOf(
  changes: Partial<Coil> = {},
  setting: BurstSetting = {},
  figures: Readonly<Record<string, number>> = {},
): BurstStudy {
  return study({ ...lantern, ...changes }, solvedWith(figures), setting);
}

/** Lantern's solution with other values for some figures. */
export function solvedWith(values: Readonly<Record<string, number>>): Solution {
  const figures = new Map(lanternSolved.figures);
  for (const [id, value] of Object.entries(values)) {
    const { low: _low, high: _high, ...rest } = figures.get(id)!;
    figures.set(id, { ...rest, value });
  }
  return { ...lanternSolved, figures };
}

export function figureOf({ figures }: BurstStudy, id: string): number {
  const found = figures.get(id);
  if (!found) throw new Error(`the study has no ${id}`);
  return found.value;
}
