/** The list of parts with what each must bear, and why. */
import { Flow } from "./flow.ts";
import { framed } from "./frame.ts";
import { formatOf } from "./paper.ts";
import { partLines } from "./parts-lines.ts";
import type { Sheet } from "./sheet.ts";

const columns = [
  { head: "no.", share: 0.035, align: "end" },
  { head: "part", share: 0.14, face: "bold" },
  { head: "count", share: 0.05, align: "end" },
  { head: "in the file", share: 0.185 },
  { head: "ask for", share: 0.25 },
  { head: "why", share: 0.34 },
] as const;

export const partsSheet: Sheet = {
  id: "parts-list",
  title: "Parts and their ratings",
  says: "what to ask of each part, with what it bears and the margin",
  needs: [],
  lay: (subject, setting) => {
    const format = formatOf(setting.paper, { wide: true });
    const flow = new Flow(format.body);
    flow.title(
      "Parts and their ratings",
      "Stresses are predictions for this file, the greater of its own setting and its interrupter's limits. Margins are common practice, no source. A rating met is no promise that the part lasts.",
    );
    let number = 0;
    const lines = partLines(subject, setting);
    for (const group of new Set(lines.map((line) => line.group))) {
      flow.heading(group, 20e-3);
      const rows = lines
        .filter((line) => line.group === group)
        .map(({ part, count, inFile, ask, why }) => [String(++number), part, String(count), inFile, ask, why]);
      flow.table(columns, rows, { size: 2.5e-3 });
    }
    return framed(flow.pages, { subject, setting, format, title: "Parts and their ratings", scale: "–" });
  },
  table: (subject, setting) => [
    ["group", "part", "count", "in the file", "ask for", "why"],
    ...partLines(subject, setting).map(({ group, part, count, inFile, ask, why }) =>
      [group, part, String(count), inFile, ask, why].map((text) => text.replace(/\s/g, " ")),
    ),
  ],
};
