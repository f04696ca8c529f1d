/** Findings in one sentence each, for pages whose subject is something else. */
import type { Finding, Severity } from "../../catalogue/finding.ts";
import { shellWord } from "./findings.ts";
import { painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

/**
 * One sentence a finding, and where to see what can be done. Empty where there is none.
 *
 * @param elsewhere  findings that are not of this page: to stop for they are told as well, the others are counted
 */
export function briefText({
  findings,
  elsewhere = [],
  fileName,
  width = 80,
  colour = false,
}: {
  findings: readonly Finding[];
  elsewhere?: readonly Finding[];
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const stops = elsewhere.filter(({ severity }) => severity === "stop");
  const told = [...stops, ...findings];
  const others = elsewhere.length - stops.length;
  if (told.length + others === 0) return "";
  const paint = painter(colour);
  const lines = told.map(({ severity, path, what }) =>
    wrap(`${path === "" ? "" : `${path}: `}${what}`, { width, first: severity.padEnd(6), indent: "      " }).replace(
      severity,
      paint(severity, severity),
    ),
  );
  const count =
    others === 0
      ? []
      : [
          elsewhereWords(
            elsewhere.filter((one) => !stops.includes(one)),
            told.length > 0,
          ),
        ];
  return `${[...lines, ...count].join("\n")}\n\nWhat can be done: coilwright check ${shellWord(fileName)}\n`;
}

/** How many there are besides, and how many of them are more than worth a look. */
function elsewhereWords(findings: readonly Finding[], after: boolean): string {
  const fixes = findings.filter(({ severity }) => severity === ("fix" satisfies Severity)).length;
  const count = `${findings.length} ${after ? "more" : findings.length === 1 ? "finding" : "findings"} elsewhere`;
  return `${after ? "and " : ""}${count}${fixes === 0 ? "" : `, ${fixes} of them to fix`}`;
}
