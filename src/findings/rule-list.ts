/** Every rule that is asked, by name of its file. A new rule is one file and one line here. */
import type { Room, Rule } from "./rule.ts";
import { airThin } from "./rules/air-thin.ts";
import { bankDissipationMissing } from "./rules/bank-dissipation-missing.ts";
import { bankOverVoltage } from "./rules/bank-over-voltage.ts";
import { bankRatingMissing } from "./rules/bank-rating-missing.ts";
import { bankSharesUnequally } from "./rules/bank-shares-unequally.ts";
import { bankToleranceMovesTune } from "./rules/bank-tolerance-moves-tune.ts";
import { baseLow } from "./rules/base-low.ts";
import { breakoutEarly } from "./rules/breakout-early.ts";
import { breakoutOutOfReach } from "./rules/breakout-out-of-reach.ts";
import { coatingMissing } from "./rules/coating-missing.ts";
import { coatingThin } from "./rules/coating-thin.ts";
import { coatingTrapsAir } from "./rules/coating-traps-air.ts";
import { couplingHigh } from "./rules/coupling-high.ts";
import { couplingLow } from "./rules/coupling-low.ts";
import { edgeGuessed } from "./rules/edge-guessed.ts";
import { fixedFrequencyOffPole } from "./rules/fixed-frequency-off-pole.ts";
import { guessDecides } from "./rules/guess-decides.ts";
import { interrupterLimitsMissing } from "./rules/interrupter-limits-missing.ts";
import { interrupterOverLimits } from "./rules/interrupter-over-limits.ts";
import { layersClose } from "./rules/layers-close.ts";
import { leadsGuessed } from "./rules/leads-guessed.ts";
import { leadsLarge } from "./rules/leads-large.ts";
import { matchTapBeyond } from "./rules/match-tap-beyond.ts";
import { matchTapInside } from "./rules/match-tap-inside.ts";
import { matchTapNearEnd } from "./rules/match-tap-near-end.ts";
import { mistuned } from "./rules/mistuned.ts";
import { modeNearHarmonic } from "./rules/mode-near-harmonic.ts";
import { nobodyListed } from "./rules/nobody-listed.ts";
import { objectWithinReach } from "./rules/object-within-reach.ts";
import { overcurrentAboveSwitch } from "./rules/overcurrent-above-switch.ts";
import { overcurrentMissing } from "./rules/overcurrent-missing.ts";
import { peopleShiftTune } from "./rules/people-shift-tune.ts";
import { personWithinReach } from "./rules/person-within-reach.ts";
import { polesClose } from "./rules/poles-close.ts";
import { primaryAboveBase } from "./rules/primary-above-base.ts";
import { primaryConductorHot } from "./rules/primary-conductor-hot.ts";
import { primaryNearWinding } from "./rules/primary-near-winding.ts";
import { primaryTall } from "./rules/primary-tall.ts";
import { primaryTurnsClose } from "./rules/primary-turns-close.ts";
import { qImplausible } from "./rules/q-implausible.ts";
import { qLow } from "./rules/q-low.ts";
import { rodNotEarthed } from "./rules/rod-not-earthed.ts";
import { roomNotDescribed } from "./rules/room-not-described.ts";
import { roomShiftsTune } from "./rules/room-shifts-tune.ts";
import { roomWithinReach } from "./rules/room-within-reach.ts";
import { strikeRingClosed } from "./rules/strike-ring-closed.ts";
import { strikeRingMisplaced } from "./rules/strike-ring-misplaced.ts";
import { strikeRingMissing } from "./rules/strike-ring-missing.ts";
import { strikeRingNearPrimary } from "./rules/strike-ring-near-primary.ts";
import { strikeRingNotEarthed } from "./rules/strike-ring-not-earthed.ts";
import { tankAboveSecondary } from "./rules/tank-above-secondary.ts";
import { topLoadHigh } from "./rules/top-load-high.ts";
import { topLoadLow } from "./rules/top-load-low.ts";
import { topLoadMissing } from "./rules/top-load-missing.ts";
import { topLoadNarrow } from "./rules/top-load-narrow.ts";
import { toroidProportions } from "./rules/toroid-proportions.ts";
import { turnsDischarge } from "./rules/turns-discharge.ts";
import { turnsFew } from "./rules/turns-few.ts";
import { turnsMany } from "./rules/turns-many.ts";
import { voltageNotBounded } from "./rules/voltage-not-bounded.ts";
import { windingEndBreaksOut } from "./rules/winding-end-breaks-out.ts";
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
  airThin,
  bankDissipationMissing,
  bankOverVoltage,
  bankRatingMissing,
  bankSharesUnequally,
  bankToleranceMovesTune,
  baseLow,
  breakoutEarly,
  breakoutOutOfReach,
  coatingMissing,
  coatingThin,
  coatingTrapsAir,
  couplingHigh,
  couplingLow,
  edgeGuessed,
  fixedFrequencyOffPole,
  guessDecides,
  interrupterLimitsMissing,
  interrupterOverLimits,
  layersClose,
  leadsGuessed,
  leadsLarge,
  matchTapBeyond,
  matchTapInside,
  matchTapNearEnd,
  mistuned,
  modeNearHarmonic,
  nobodyListed,
  objectWithinReach,
  overcurrentAboveSwitch,
  overcurrentMissing,
  peopleShiftTune,
  personWithinReach,
  polesClose,
  primaryAboveBase,
  primaryConductorHot,
  primaryNearWinding,
  primaryTall,
  primaryTurnsClose,
  qImplausible,
  qLow,
  rodNotEarthed,
  roomNotDescribed,
  roomShiftsTune,
  roomWithinReach,
  strikeRingClosed,
  strikeRingMisplaced,
  strikeRingMissing,
  strikeRingNearPrimary,
  strikeRingNotEarthed,
  tankAboveSecondary,
  topLoadHigh,
  topLoadLow,
  topLoadMissing,
  topLoadNarrow,
  toroidProportions,
  turnsDischarge,
  turnsFew,
  turnsMany,
  voltageNotBounded,
  windingEndBreaksOut,
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

/** The room of a rule by its id; what the reader finds belongs to the first. */
export const roomOf = (rule: string): Room => rules.find(({ id }) => id === rule)?.room ?? "shape";
