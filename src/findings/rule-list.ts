/** Every rule that is asked, by name of its file. A new rule is one file and one line here. */
import type { Rule } from "./rule.ts";
import { baseLow } from "./rules/base-low.ts";
import { coatingMissing } from "./rules/coating-missing.ts";
import { coatingThin } from "./rules/coating-thin.ts";
import { coatingTrapsAir } from "./rules/coating-traps-air.ts";
import { qImplausible } from "./rules/q-implausible.ts";
import { qLow } from "./rules/q-low.ts";
import { turnsDischarge } from "./rules/turns-discharge.ts";
import { turnsFew } from "./rules/turns-few.ts";
import { turnsMany } from "./rules/turns-many.ts";
import { windingLoose } from "./rules/winding-loose.ts";
import { windingLossByProximity } from "./rules/winding-loss-by-proximity.ts";
import { windingNearlyFull } from "./rules/winding-nearly-full.ts";
import { windingResistanceHigh } from "./rules/winding-resistance-high.ts";
import { windingSlender } from "./rules/winding-slender.ts";
import { windingStocky } from "./rules/winding-stocky.ts";
import { windingStressAlong } from "./rules/winding-stress-along.ts";
import { wireHairThin } from "./rules/wire-hair-thin.ts";
import { wireThickForSkin } from "./rules/wire-thick-for-skin.ts";

export const rules: readonly Rule[] = [
  baseLow,
  coatingMissing,
  coatingThin,
  coatingTrapsAir,
  qImplausible,
  qLow,
  turnsDischarge,
  turnsFew,
  turnsMany,
  windingLoose,
  windingLossByProximity,
  windingNearlyFull,
  windingResistanceHigh,
  windingSlender,
  windingStocky,
  windingStressAlong,
  wireHairThin,
  wireThickForSkin,
];
