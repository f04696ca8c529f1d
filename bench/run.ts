/** `npm run bench [name…]`: every race of `*.bench.ts`, or those whose name holds one of the words. */
import { type Race, run } from "./race.ts";

const files = import.meta.glob<{ default: readonly Race[] }>("./*.bench.ts", { eager: true });
const wanted = process.argv.slice(2);
const races = Object.values(files)
  .flatMap((file) => file.default)
  .filter(({ name }) => wanted.length === 0 || wanted.some((word) => name.includes(word)));

const milliseconds = (value: number) => value.toPrecision(3).padStart(9);
let over = 0;
console.log("     ours    reference   ratio  at most   [ms]");
for (const race of races) {
  const result = run(race);
  const { candidate, reference, ratio } = result;
  const late = ratio > race.atMost;
  if (late) over++;
  console.log(
    `${milliseconds(candidate)} ${milliseconds(reference)} ${ratio.toFixed(2).padStart(9)} ${String(race.atMost).padStart(8)}` +
      `   ${race.name}, against ${race.against}${late ? "   OVER" : ""}`,
  );
  for (const line of race.beside?.(result) ?? []) console.log(`${" ".repeat(41)}${line}`);
}
console.log(`${races.length} races, ${over} over their ratio`);
if (races.length === 0) console.error("no race was run: an empty list proves nothing");
process.exitCode = over > 0 || races.length === 0 ? 1 : 0;
