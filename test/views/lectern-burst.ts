/** One burst of the tests' own coil, computed once for all tests of its pictures. */
import type { BurstStudy, Waveforms } from "../../src/workbench/burst-contract.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import { solve } from "../../src/workbench/solve.ts";
import { coilOf, lecternText } from "./coil-of-example.ts";

export const { coil } = coilOf(lecternText);
export const solution = solve(coil);
export const burst: BurstStudy = study(coil, solution, {}, { waveforms: true });

if (burst.waveforms === undefined) throw new Error("the coil of the tests has a burst");
export const waves: Waveforms = burst.waveforms;
