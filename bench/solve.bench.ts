/**
 * From a coil to its figures: against the plainest dense solution of the same coil, and each step of an edit against a fixed piece of work.
 *
 * The aims in milliseconds are for one core of a present-day desk computer. They are printed beside what this machine took and never asserted;
 * what fails the bench is a ratio. The size of the app, the other half of a quick start, is checked by `npm test size`.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import type { Coil } from "../src/description/coil.ts";
import { assess } from "../src/findings/assess.ts";
import { readCoil } from "../src/readers/coil-file.ts";
import type { Solution } from "../src/workbench/contract.ts";
import { solve } from "../src/workbench/solve.ts";
import { cases, coilOf } from "../test/resonator/open-cases.ts";
import type { Race, RaceResult } from "./race.ts";
import { denseSolve } from "./reference/dense-solve.ts";
import { yardstick } from "./yardstick.ts";

const wren = cases.find(({ name }) => name === "wren")!;
const coil = coilOf(wren);

let moves = 0;
/** The coil a little higher than any before, so that no answer is in memory. Tables that depend on counts alone stay warm. */
function raised(from: Coil): Coil {
  moves++;
  return { ...from, secondary: { ...from.secondary, baseHeight: from.secondary.baseHeight * (1 + 1e-7 * moves) } };
}

/** How far a solution lies from the independent one of test/reference/resonator-open-cases.json. */
function errors(found: Readonly<Record<string, number>>): string {
  return Object.entries(found)
    .map(([id, value]) => {
      const off = Math.abs(value / (wren.expected[id] as number) - 1);
      return `${id} ${off.toExponential(0)}`;
    })
    .join(", ");
}

const compared = ["secondary.f1", "coupling.kMode1", "topload.peakFieldPerVolt"];
const ownErrors = ({ figures }: Solution): string =>
  errors(Object.fromEntries(compared.map((id) => [id, figures.get(id)!.value])));
function denseErrors(): string {
  const { f1, couplingMode1, peakFieldPerVolt } = denseSolve(coil);
  return errors({
    "secondary.f1": f1,
    "coupling.kMode1": couplingMode1,
    "topload.peakFieldPerVolt": peakFieldPerVolt,
  });
}

/** Processor time of the work [ms], which a machine busy with something else changes less than the clock's. */
function processorTime(work: () => unknown): number {
  const times = 5;
  const before = process.cpuUsage();
  for (let i = 0; i < times; i++) work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000 / times;
}

const aim =
  (milliseconds: number, what: string, share = 1) =>
  ({ race, candidate }: RaceResult): readonly string[] => [
    `aim for ${what}: under ${milliseconds} ms; here ${(share * candidate).toPrecision(3)} ms, ` +
      `${(share * processorTime(race.candidate)).toPrecision(3)} ms of processor time`,
  ];
const wholeCommand = ({ candidate }: RaceResult): readonly string[] => [
  `aim for the whole command: under 500 ms; here ${candidate.toPrecision(3)} ms`,
];
const oneEdit = aim(3, "one such edit", 0.5);

const table = "examples/inkwell.yaml";
const tableText = readFileSync(table, "utf8");
const tableCoil = readCoil(tableText).coil!;
const printedCoil = readCoil(readFileSync("examples/thimble.yaml", "utf8")).coil!;

/** Bank and tap, one after the other: fields and modes stay as they are. */
function editedBankAndTap(from: Coil): readonly Solution[] {
  moves++;
  const { primary, tank } = from;
  const { bank } = tank!;
  return [
    solve({ ...from, tank: { ...tank!, bank: { ...bank, each: bank.each * (1 + 1e-7 * moves) } } }),
    solve({ ...from, primary: { ...primary!, tap: primary!.tap - 1e-7 * moves } }),
  ];
}

/** The text as the app changes it while the top load is dragged, read, solved and judged. */
function drag(): unknown {
  moves++;
  const text = tableText.replace(/height: 640 mm/, `height: ${(640 + 1e-3 * moves).toFixed(3)} mm`);
  if (text === tableText) throw new Error(`${table} has no top load at a height of 640 mm, so nothing was dragged`);
  const file = readCoil(text);
  const solution = solve(file.coil!);
  return assess({ file, solution });
}

const commandLine = "dist/cli.js";
const isBuilt = existsSync(commandLine);
if (!isBuilt) console.log(`${commandLine} is not there, so a cold start is not raced: npm run build makes it`);
const node = (...parameters: string[]) => spawnSync(process.execPath, parameters, { encoding: "utf8" }).stdout;

export default [
  {
    name: "a solve of the reference coil, geometry changed each time",
    candidate: () => solve(raised(coil)),
    reference: () => denseSolve(raised(coil)),
    against: "constant panels, every turn with every turn, dense matrices of a general-purpose library",
    atMost: 0.05,
    rounds: 3,
    roundLasts: 500,
    beside: (result) => [
      `${(1 / result.ratio).toFixed(0)} times as fast, and more figures: modes, losses, tuning, what each surrounding does`,
      `off the independent solution: ours ${ownErrors(solve(coil))}`,
      `                          reference ${denseErrors()}`,
      ...aim(60, "a whole solve")(result),
    ],
  },
  {
    name: "a solve of the table coil in its room, geometry changed each time",
    candidate: () => solve(raised(tableCoil)),
    ...yardstick,
    atMost: 12,
    roundLasts: 100,
    beside: aim(60, "a whole solve"),
  },
  {
    name: "two edits that leave the geometry alone, bank and tap",
    candidate: () => editedBankAndTap(tableCoil),
    ...yardstick,
    atMost: 0.7,
    roundLasts: 100,
    beside: oneEdit,
  },
  {
    name: "the same two edits where the primary is printed",
    candidate: () => editedBankAndTap(printedCoil),
    ...yardstick,
    atMost: 6,
    roundLasts: 100,
    beside: oneEdit,
  },
  {
    name: "two steps of a drag of the top load, each read, solved and judged",
    candidate: () => [drag(), drag()],
    ...yardstick,
    atMost: 28,
    roundLasts: 100,
    beside: aim(100, "both"),
  },
  ...(isBuilt
    ? [
        {
          name: `check ${table} from cold`,
          candidate: () => node(commandLine, "check", table),
          reference: () => node("-e", "0"),
          against: "an empty Node",
          atMost: 12,
          rounds: 7,
          beside: wholeCommand,
        },
      ]
    : []),
] satisfies readonly Race[];
