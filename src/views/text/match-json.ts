/** What `match --json` prints: what each record says, the fitted figures, what stays open, what explains the difference. */
import type { Finding } from "../../catalogue/finding.ts";
import type { MatchRecord } from "../../workbench/match.ts";
import { type CaptureFigure, captureFigures } from "../../workbench/match-capture.ts";
import type { Match } from "../../workbench/match-contract.ts";

export interface CaptureShown {
  readonly name: string;
  /** How the reader took the file apart, as it says so itself. */
  readonly dialect?: object;
  /** The same in words. */
  readonly readAs?: string;
  readonly matched?: MatchRecord;
}

/** Values in SI, the unit beside each; `low` and `high` are the 90 % interval. `capture.*` are of the first record that shows them. */
export function matchJson({
  match,
  captures,
  findings,
}: {
  match: Match | undefined;
  captures: readonly CaptureShown[];
  findings: readonly Finding[];
}) {
  const each = captures.map((capture) => ({ capture, figures: figuresOf(capture) }));
  const first = new Map<string, CaptureFigure>();
  for (const { figures } of each) for (const figure of figures) if (!first.has(figure.id)) first.set(figure.id, figure);
  // Only records that could be read have a state.
  const usable = captures.flatMap(({ matched }) => matched ?? []);
  const drawnBeside = new Map(match?.matched.map((figure) => [figure.id, figure]) ?? []);
  return {
    quantities: {
      ...quantitiesOf([...first.values()]),
      ...Object.fromEntries(
        [...drawnBeside].map(([id, { value, low, high, unit, drawn, shift, left }]) => [
          id,
          { value, low, high, unit, drawn, shift, left },
        ]),
      ),
    },
    findings,
    explanations: match?.explanations ?? [],
    rivals: match?.rivals ?? [],
    taken: match?.taken,
    undetermined: match?.undetermined ?? [],
    parameters: match?.parameters ?? [],
    residuals: match?.residuals ?? [],
    adopt: match?.adopt ?? [],
    dialect: captures[0]?.dialect,
    captures: each.map(({ capture: { name, dialect, readAs, matched }, figures }) => ({
      name,
      state: matched && match?.states[usable.indexOf(matched)]?.state,
      dialect,
      readAs,
      quantities: quantitiesOf(figures),
    })),
  };
}

const figuresOf = ({ matched }: CaptureShown): readonly CaptureFigure[] =>
  matched && "reading" in matched ? captureFigures(matched.reading) : [];

const quantitiesOf = (figures: readonly CaptureFigure[]) =>
  Object.fromEntries(figures.map(({ id, value, low, high, unit }) => [id, { value, low, high, unit }]));
