/** Every sheet, in the order in which they are printed. */
import { bringUpSheet } from "./bring-up-sheet.ts";
import { dataPlate } from "./data-plate.ts";
import { formerEnds, formerStrip } from "./former-ends.ts";
import { partsSheet } from "./parts-sheet.ts";
import { primaryPlan } from "./primary-plan.ts";
import { primarySupports } from "./primary-supports.ts";
import { printedPrimary } from "./printed-primary.ts";
import { schematicSheet } from "./schematic-sheet.ts";
import type { Sheet } from "./sheet.ts";
import { showDaySheet } from "./show-day-sheet.ts";
import { windingSheet } from "./winding-sheet.ts";

export const sheets: readonly Sheet[] = [
  dataPlate,
  windingSheet,
  formerStrip,
  formerEnds,
  primaryPlan,
  primarySupports,
  printedPrimary,
  partsSheet,
  schematicSheet,
  bringUpSheet,
  showDaySheet,
];
