/** The head of the tune page: in a few lines whether the coil is tuned, to what, and what to change. */

import { formatQuantity } from "../../units/format.ts";
import type { Solution } from "../../workbench/contract.ts";
import { headText } from "./head.ts";
import { painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

/** The coil's name, and the sentence or two that answer the question of the page. */
export function tuningText({
  solution: { coil, figures },
  fileName,
  width = 80,
  colour = false,
}: {
  solution: Solution;
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const paint = painter(colour);
  const shown = (id: string, digits = 4) => {
    const found = figures.get(id);
    return found === undefined ? undefined : formatQuantity(found.value, found.unit, { digits });
  };
  const says = (words: string) => wrap(words, { width });
  const [f1, tank, ratio] = [shown("secondary.f1"), shown("tank.frequency"), shown("tuning.ratio")];
  const lines = [
    headText({ name: coil.name, fileName, width, paint }),
    tank === undefined || ratio === undefined
      ? says(`The secondary rings at ${f1}. There is no tank to tune.`)
      : says(`The secondary rings at ${f1}, the tank at ${tank}, ${ratio} of it.`),
  ];
  const [aim, tap, bank] = [
    shown("tuning.aimRatio"),
    shown("tuning.tapForMatch", 3),
    shown("tuning.capacitorForMatch"),
  ];
  if (aim !== undefined && bank !== undefined) {
    const streamer = shown("tuning.streamerLength", 2);
    const why = streamer === undefined ? "written in the file" : `the secondary with a streamer of ${streamer}`;
    const how = tap === undefined ? `a bank of ${bank}` : `tap ${tap}, or a bank of ${bank} at the present tap`;
    lines.push(says(`The aim is ${aim}, ${why}: ${how}.`));
  }
  const [lower, upper] = [shown("poles.lower"), shown("poles.upper")];
  if (lower !== undefined && upper !== undefined) {
    lines.push(says(`Coupled and unloaded, the poles lie at ${lower} and ${upper}.`));
  }
  return `${lines.join("\n")}\n`;
}
