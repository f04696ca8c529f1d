/** What the catalogue knows of a figure before it is computed. */

/** The block of the ledger that a figure stands in, in the order of the ledger. */
export const groups = [
  "secondary",
  "top load",
  "winding",
  "primary",
  "tank",
  "coupling",
  "poles",
  "tuning",
  "surroundings",
  "burst",
  "bank",
  "switch",
  "bus",
  "mains",
  "gate",
  "feedback",
  "control",
  "programme",
  "stand-off",
  "fields",
  "noise",
  "stored",
  "touch",
  "record",
  "match",
] as const;
export type Group = (typeof groups)[number];

export interface Quantity {
  readonly id: string;
  /** SI unit of the value; `1` for counts and ratios. */
  readonly unit: string;
  /** Short name, read under its group. */
  readonly name: string;
  readonly group: Group;
  readonly definition: string;
  /** The formula in words, without symbols that need a key. */
  readonly formula: string;
  /** Unit and significant digits to show; `auto` picks a prefix by size. */
  readonly display: { readonly unit: string; readonly digits: number };
}

/** Shown with a prefix chosen by size. */
export const autoDigits = (digits: number) => ({ unit: "auto", digits });
/** Shown in a fixed unit. */
export const plainDigits = (unit: string, digits: number) => ({ unit, digits });
