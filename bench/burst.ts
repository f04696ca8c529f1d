/**
 * Bursts per second on one core, and how that compares with a general-purpose circuit simulator on the same circuit in the same run,
 * the accuracy of each beside the ratio. `npm run bench simulator` runs it alone; it takes half a gigabyte and some seconds.
 */
import { readFileSync } from "node:fs";
import { simulateBurst } from "../src/burst/burst.ts";
import { peakOf, runNetlist } from "../test/burst/simulator.ts";
import { burstPulse, coilOfBench } from "./burst-coil.ts";

const netlist = readFileSync("test/reference/burst-netlists/open-1.cir", "utf8");
const reference = JSON.parse(readFileSync("test/reference/burst-open-cases.json", "utf8")) as {
  readonly cases: readonly { readonly results: { readonly peakTopVoltage: number } }[];
};
/** By the same simulator, native, with steps of 0.5 ns; its own error is estimated at 4.2 V in 254 kV. */
const peak = reference.cases[0]!.results.peakTopVoltage;
const percent = (value: number): string => `${(100 * Math.abs(value / peak - 1)).toPrecision(2)} %`;

/** Median over five rounds [ms]. */
function median(work: () => unknown, times: number): number {
  const rounds = Array.from({ length: 5 }, () => {
    const began = performance.now();
    for (let n = 0; n < times; n++) work();
    return (performance.now() - began) / times;
  });
  return rounds.sort((a, b) => a - b)[2]!;
}

const whole = { ...burstPulse, endTime: 300e-6 };
const burst = simulateBurst(coilOfBench, whole);
median(() => simulateBurst(coilOfBench, burstPulse), 500);
const alone = median(() => simulateBurst(coilOfBench, burstPulse), 500);
const ours = median(() => simulateBurst(coilOfBench, whole), 500);
console.log(
  `120 µs burst, one mode, all figures: ${alone.toFixed(3)} ms, ${(1000 / alone).toFixed(0)} bursts per second on one core`,
);
console.log(
  `with its ring-down to 300 µs: ${ours.toFixed(3)} ms; peak top voltage within ${percent(burst.peakTopVoltage)} of the reference`,
);

for (const step of [1e-8, 5e-9]) {
  const began = performance.now();
  const run = await runNetlist({ netlist, step });
  const theirs = performance.now() - began;
  const error = percent(peakOf(run.time, run.topVoltage));
  console.log(
    `simulator in WebAssembly, ${step * 1e9} ns steps: ${theirs.toFixed(0)} ms, within ${error}; ratio ${(theirs / ours).toFixed(0)}`,
  );
}
console.log(
  "The simulator is 3 to 4 times slower in WebAssembly than native: divide the ratios by that for a native one.",
);
