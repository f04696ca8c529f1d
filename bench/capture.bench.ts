/** Reading a record of an oscilloscope, against a well-kept CSV reader that gives the same numbers and knows nothing of records. */
import Papa from "papaparse";
import { readCapture } from "../src/readers/capture.ts";
import type { Race } from "./race.ts";

const rows = 400_000;
const interval = 4e-9;

/** Time and two channels in scientific notation, the carrier in bursts. */
function written(): string {
  const lines = ["Time,CH1,CH2", "(s),(V),(V)"];
  for (let i = 0; i < rows; i++) {
    const t = i * interval;
    const wave = Math.sin(2 * Math.PI * 2e5 * t) * ((t * 1000) % 1 < 0.1 ? 1 : 0.01);
    lines.push(`${t.toExponential(6)},${wave.toFixed(4)},${(0.3 * wave).toExponential(3)}`);
  }
  return `${lines.join("\n")}\n`;
}

const text = written();
const bytes = new TextEncoder().encode(text);
const samples = readCapture(bytes).record?.channels[0]?.samples.length ?? 0;

export default [
  {
    name: `reading a record of ${rows} rows and three columns`,
    candidate: () => readCapture(bytes),
    reference: () => Papa.parse(text, { dynamicTyping: true }),
    against: "a CSV reader alone, numbers parsed",
    atMost: 1,
    rounds: 5,
    beside: () => [`${samples} samples a channel, ${(bytes.length / 1e6).toFixed(1)} MB`],
  },
] satisfies readonly Race[];
