import type { Finding } from "../catalogue/finding.ts";

/** What the shell is told. */
export const exit = {
  /** Nothing to stop for and nothing to fix. */
  clean: 0,
  /** There are findings to stop for or to fix. */
  findings: 1,
  /** The input cannot be made into a coil, or the command was not understood. */
  unreadable: 2,
  /** The person stopped it. */
  interrupted: 130,
} as const;

/** The exit code that a coil's findings ask for. */
export const exitFor = ({ readable, findings }: { readable: boolean; findings: readonly Finding[] }): number => {
  if (!readable) return exit.unreadable;
  return findings.some(({ severity }) => severity !== "look") ? exit.findings : exit.clean;
};
