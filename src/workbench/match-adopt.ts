/** Fitted values as edits of the coil file. */
import type { Edit } from "../catalogue/finding.ts";
import { type Dimension, dimensions } from "../units/dimension.ts";
import { readQuantity, writeQuantity } from "../units/quantity.ts";
import { numberAt } from "./coil-path.ts";
import type { Cause } from "./match-causes.ts";
import type { MatchedParameter } from "./match-contract.ts";
import type { Drawn } from "./match-parameters.ts";

/** Part of the drawing's doubt below which a number is known well enough from the records to be written down. */
const known = 0.7;
/** From a 90 % interval's half-width to the half-width that holds 95 %, as two standard deviations. */
const ninetyToTwoSigma = 2 / 1.645;
/** Turns are written to a hundredth. */
const tapDigits = 2;

/** What the comment of an adopted number tells, beside the numbers. */
export interface Adoption {
  readonly records: number;
  /** Day of the adoption, as `2026-11-25`; left out of the comment where nobody gives one. */
  readonly date?: string | undefined;
}

/**
 * Numbers that the records know better than the drawing did, and the one that the cause moves, each with `(measured)` and its tolerance,
 * and a comment that says from how many records, on which day, and what was drawn.
 *
 * @returns edits for `editCoil`, in the order of the parameters
 */
export function adoptEdits(
  drawn: Drawn,
  cause: Cause | undefined,
  { parameters, adoption }: { readonly parameters: readonly MatchedParameter[]; readonly adoption: Adoption },
): readonly Edit[] {
  const moved = cause?.kind === "size" ? cause.parameter.id : undefined;
  const edits = parameters
    .filter(({ id, paths, left }) => paths.length > 0 && (left < known || id === moved))
    .flatMap((each) => editsOf(drawn, each, adoption));
  if (cause?.kind !== "switch" || !cause.coil) return edits;
  if (cause.id === "strike-ring-closed") return [...edits, { path: "primary.strikeRing.closed", value: "true" }];
  const tap = parameters.find(({ id }) => id === "primary.tap");
  const value = cause.value + (tap ? tap.value - tap.drawn : 0);
  const comment = commentOf(adoption, { fitted: turnsText(value), before: `drawn ${turnsText(tap?.drawn ?? value)}` });
  return [
    ...edits.filter(({ path }) => path !== "primary.tap"),
    { path: "primary.tap", value: turnsText(value), comment },
  ];
}

function commentOf({ records, date }: Adoption, { fitted, before }: { fitted: string; before: string }): string {
  const from = `from ${records} ${records === 1 ? "record" : "records"}`;
  return `${date === undefined ? from : `${from}, ${date}`}: ${fitted}, ${before}`;
}

const turnsText = (value: number): string => String(Number(value.toFixed(tapDigits)));

function editsOf(
  { file, solution }: Drawn,
  { paths, drawn, value, low, high }: MatchedParameter,
  adoption: Adoption,
): readonly Edit[] {
  const tolerance = ((high - low) / 2) * ninetyToTwoSigma;
  return paths.flatMap((path): Edit[] => {
    const provenance = file.provenances.get(path);
    const now = numberAt(solution.coil, path);
    if (!provenance || now === undefined) return [];
    const at = now + value - drawn;
    if (!isDimension(provenance.dimension)) {
      const text = provenance.dimension === "count" ? String(Math.round(at)) : turnsText(at);
      const comment = commentOf(adoption, { fitted: text, before: `drawn ${provenance.text ?? turnsText(now)}` });
      return [{ path, value: text, comment }];
    }
    const written = provenance.text && readQuantity(provenance.text, { dimension: provenance.dimension });
    const writtenIn = written && "quantity" in written ? written.quantity.unit : dimensions[provenance.dimension].usual;
    const unit = writtenIn === "AWG" ? "mm" : writtenIn;
    const fitted = roundedTo(at, tolerance);
    const before = `${provenance.origin === "measured" ? "before" : "drawn"} ${writeQuantity({ value: now, unit })}`;
    return [
      {
        path,
        value: writeQuantity({
          value: fitted,
          unit,
          tolerance: { kind: "absolute", value: Number(tolerance.toPrecision(2)) },
          origin: "measured",
        }),
        comment: commentOf(adoption, { fitted: writeQuantity({ value: fitted, unit }), before }),
      },
    ];
  });
}

const isDimension = (name: string): name is Dimension => name in dimensions;

/** To a tenth of its tolerance or finer: no digits that mean nothing. */
function roundedTo(value: number, tolerance: number): number {
  if (!(tolerance > 0) || value === 0) return value;
  const digits = Math.ceil(Math.log10(Math.abs(value) / tolerance)) + 2;
  return Number(value.toPrecision(Math.max(2, Math.min(9, digits))));
}
