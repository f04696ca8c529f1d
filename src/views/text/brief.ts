/** Findings in one sentence each, for pages whose subject is something else. */
import type { Finding } from "../../catalogue/finding.ts";
import { shellWord } from "./findings.ts";
import { painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

/** One sentence a finding, and where to see what can be done. Empty where there is none. */
export function briefText({
  findings,
  fileName,
  width = 80,
  colour = false,
}: {
  findings: readonly Finding[];
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  if (findings.length === 0) return "";
  const paint = painter(colour);
  const lines = findings.map(({ severity, path, what }) =>
    wrap(`${path === "" ? "" : `${path}: `}${what}`, { width, first: severity.padEnd(6), indent: "      " }).replace(
      severity,
      paint(severity, severity),
    ),
  );
  return `${lines.join("\n")}\n\nWhat can be done: coilwright check ${shellWord(fileName)}\n`;
}
