/** What a slider in the burst's room waits for: a whole study of the table coil, against a fixed piece of work. */
import { readFileSync } from "node:fs";
import { readCoil } from "../src/readers/coil-file.ts";
import type { BurstSetting } from "../src/workbench/burst-contract.ts";
import { study } from "../src/workbench/burst-stage.ts";
import { solve } from "../src/workbench/solve.ts";
import type { Race, RaceResult } from "./race.ts";
import { yardstick } from "./yardstick.ts";

const coil = readCoil(readFileSync("examples/inkwell.yaml", "utf8")).coil!;
const solution = solve(coil);

let moves = 0;
/** The on-time a little longer than any before, as under a slider. */
const slid = (setting: BurstSetting, waveforms = false) => {
  moves++;
  const onTime = coil.interrupter!.onTime * (1 + 1e-7 * moves);
  return study(coil, solution, { ...setting, onTime }, { waveforms });
};

const aim =
  (milliseconds: number, what: string) =>
  ({ candidate }: RaceResult): readonly string[] => [
    `aim for ${what}: under ${milliseconds} ms; here ${candidate.toPrecision(3)} ms`,
  ];

export default [
  {
    name: "a study of the table coil, one mode, its train run until steady",
    candidate: () => slid({}),
    ...yardstick,
    atMost: 1.2,
    roundLasts: 60,
    beside: aim(3, "a study without waveforms"),
  },
  {
    name: "the same with three modes",
    candidate: () => slid({ modes: 3 }),
    ...yardstick,
    atMost: 3,
    roundLasts: 60,
    beside: aim(16, "a picture"),
  },
  {
    name: "the same with waveforms, ledger over time and spectrum",
    candidate: () => slid({}, true),
    ...yardstick,
    atMost: 2,
    roundLasts: 60,
    beside: aim(16, "a picture"),
  },
] satisfies readonly Race[];
