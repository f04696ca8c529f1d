/** Every sheet, in the order in which they are printed. */
import { formerEnds, formerStrip } from "./former-ends.ts";
import { primaryPlan } from "./primary-plan.ts";
import { primarySupports } from "./primary-supports.ts";
import { printedPrimary } from "./printed-primary.ts";
import type { Sheet } from "./sheet.ts";
import { windingSheet } from "./winding-sheet.ts";

export const sheets: readonly Sheet[] = [
  windingSheet,
  formerStrip,
  formerEnds,
  primaryPlan,
  primarySupports,
  printedPrimary,
];
