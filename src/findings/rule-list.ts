/** Every rule that is asked, by name of its file. A new rule is one file and one line here. */
import type { Room, Rule } from "./rule.ts";
import { airThin } from "./rules/air-thin.ts";
import { bankAlternatingVoltage } from "./rules/bank-alternating-voltage.ts";
import { bankCurrentHigh } from "./rules/bank-current-high.ts";
import { bankDissipationMissing } from "./rules/bank-dissipation-missing.ts";
import { bankHot } from "./rules/bank-hot.ts";
import { bankLeftCharged } from "./rules/bank-left-charged.ts";
import { bankOverVoltage } from "./rules/bank-over-voltage.ts";
import { bankRatingMissing } from "./rules/bank-rating-missing.ts";
import { bankSharesUnequally } from "./rules/bank-shares-unequally.ts";
import { bankSlopeSteep } from "./rules/bank-slope-steep.ts";
import { bankToleranceMovesTune } from "./rules/bank-tolerance-moves-tune.ts";
import { baseLow } from "./rules/base-low.ts";
import { bleederHot } from "./rules/bleeder-hot.ts";
import { bleederMissing } from "./rules/bleeder-missing.ts";
import { breakoutEarly } from "./rules/breakout-early.ts";
import { breakoutLate } from "./rules/breakout-late.ts";
import { breakoutNotReached } from "./rules/breakout-not-reached.ts";
import { breakoutOutOfReach } from "./rules/breakout-out-of-reach.ts";
import { bridgeNeverCommutates } from "./rules/bridge-never-commutates.ts";
import { burdenHot } from "./rules/burden-hot.ts";
import { burdenVoltageHigh } from "./rules/burden-voltage-high.ts";
import { burstEndedEarly } from "./rules/burst-ended-early.ts";
import { burstLedgerOpen } from "./rules/burst-ledger-open.ts";
import { burstNotComputed } from "./rules/burst-not-computed.ts";
import { burstTrainUnsettled } from "./rules/burst-train-unsettled.ts";
import { busCapacitorCurrentHigh } from "./rules/bus-capacitor-current-high.ts";
import { busCapacitorHot } from "./rules/bus-capacitor-hot.ts";
import { busCapacitorOverVoltage } from "./rules/bus-capacitor-over-voltage.ts";
import { busDischargeSlow } from "./rules/bus-discharge-slow.ts";
import { busRippleLarge } from "./rules/bus-ripple-large.ts";
import { busSagLarge } from "./rules/bus-sag-large.ts";
import { busSharesUnequally } from "./rules/bus-shares-unequally.ts";
import { busStarved } from "./rules/bus-starved.ts";
import { busStoredEnergy } from "./rules/bus-stored-energy.ts";
import { coatingMissing } from "./rules/coating-missing.ts";
import { coatingThin } from "./rules/coating-thin.ts";
import { coatingTrapsAir } from "./rules/coating-traps-air.ts";
import { controlTransformerOverloaded } from "./rules/control-transformer-overloaded.ts";
import { couplingHigh } from "./rules/coupling-high.ts";
import { couplingLow } from "./rules/coupling-low.ts";
import { deadTimeLong } from "./rules/dead-time-long.ts";
import { deadTimeMissing } from "./rules/dead-time-missing.ts";
import { deadTimeShort } from "./rules/dead-time-short.ts";
import { dutyHigh } from "./rules/duty-high.ts";
import { edgeGuessed } from "./rules/edge-guessed.ts";
import { energyReturnedLarge } from "./rules/energy-returned-large.ts";
import { feedbackStartDoubtful } from "./rules/feedback-start-doubtful.ts";
import { feedbackWorksAgainst } from "./rules/feedback-works-against.ts";
import { fewHalfCycles } from "./rules/few-half-cycles.ts";
import { fixedFrequencyOffPole } from "./rules/fixed-frequency-off-pole.ts";
import { fuseAgainstInrush } from "./rules/fuse-against-inrush.ts";
import { fuseBelowCurrent } from "./rules/fuse-below-current.ts";
import { fuseMissing } from "./rules/fuse-missing.ts";
import { gateMagnetisingCurrentHigh } from "./rules/gate-magnetising-current-high.ts";
import { gateOvershoots } from "./rules/gate-overshoots.ts";
import { gateSlow } from "./rules/gate-slow.ts";
import { gateTransformerSaturates } from "./rules/gate-transformer-saturates.ts";
import { gateVoltageOutOfRange } from "./rules/gate-voltage-out-of-range.ts";
import { gatesEarly } from "./rules/gates-early.ts";
import { gatesLate } from "./rules/gates-late.ts";
import { guessDecides } from "./rules/guess-decides.ts";
import { heatsinkHot } from "./rules/heatsink-hot.ts";
import { inrushHigh } from "./rules/inrush-high.ts";
import { interrupterLimitsMissing } from "./rules/interrupter-limits-missing.ts";
import { interrupterOverLimits } from "./rules/interrupter-over-limits.ts";
import { junctionNearLimit } from "./rules/junction-near-limit.ts";
import { junctionOverLimit } from "./rules/junction-over-limit.ts";
import { junctionSwings } from "./rules/junction-swings.ts";
import { layersClose } from "./rules/layers-close.ts";
import { leadsGuessed } from "./rules/leads-guessed.ts";
import { leadsLarge } from "./rules/leads-large.ts";
import { mainsCurrentHigh } from "./rules/mains-current-high.ts";
import { matchTapBeyond } from "./rules/match-tap-beyond.ts";
import { matchTapInside } from "./rules/match-tap-inside.ts";
import { matchTapNearEnd } from "./rules/match-tap-near-end.ts";
import { mistuned } from "./rules/mistuned.ts";
import { modeNearHarmonic } from "./rules/mode-near-harmonic.ts";
import { nobodyListed } from "./rules/nobody-listed.ts";
import { objectWithinReach } from "./rules/object-within-reach.ts";
import { onTimePastNotch } from "./rules/on-time-past-notch.ts";
import { overcurrentAboveSwitch } from "./rules/overcurrent-above-switch.ts";
import { overcurrentFarAboveBurst } from "./rules/overcurrent-far-above-burst.ts";
import { overcurrentMissing } from "./rules/overcurrent-missing.ts";
import { peakCurrentOverPulse } from "./rules/peak-current-over-pulse.ts";
import { peopleShiftTune } from "./rules/people-shift-tune.ts";
import { personWithinReach } from "./rules/person-within-reach.ts";
import { poleNotAimed } from "./rules/pole-not-aimed.ts";
import { poleUndecided } from "./rules/pole-undecided.ts";
import { polesClose } from "./rules/poles-close.ts";
import { primaryAboveBase } from "./rules/primary-above-base.ts";
import { primaryConductorHot } from "./rules/primary-conductor-hot.ts";
import { primaryNearWinding } from "./rules/primary-near-winding.ts";
import { primaryTall } from "./rules/primary-tall.ts";
import { primaryTurnsClose } from "./rules/primary-turns-close.ts";
import { qImplausible } from "./rules/q-implausible.ts";
import { qLow } from "./rules/q-low.ts";
import { regulatorDropsOut } from "./rules/regulator-drops-out.ts";
import { regulatorHot } from "./rules/regulator-hot.ts";
import { rodNotEarthed } from "./rules/rod-not-earthed.ts";
import { roomNotDescribed } from "./rules/room-not-described.ts";
import { roomShiftsTune } from "./rules/room-shifts-tune.ts";
import { roomWithinReach } from "./rules/room-within-reach.ts";
import { secondaryHot } from "./rules/secondary-hot.ts";
import { senseTransformerLeads } from "./rules/sense-transformer-leads.ts";
import { senseTransformerMissing } from "./rules/sense-transformer-missing.ts";
import { standoffAirClosed } from "./rules/standoff-air-closed.ts";
import { standoffBarrierInsideLine } from "./rules/standoff-barrier-inside-line.ts";
import { standoffBreakerOutOfReach } from "./rules/standoff-breaker-out-of-reach.ts";
import { standoffCrewInsideStrike } from "./rules/standoff-crew-inside-strike.ts";
import { standoffDoseFull } from "./rules/standoff-dose-full.ts";
import { standoffEarthMissing } from "./rules/standoff-earth-missing.ts";
import { standoffExitMissing } from "./rules/standoff-exit-missing.ts";
import { standoffHazardOpen } from "./rules/standoff-hazard-open.ts";
import { standoffHeartRates } from "./rules/standoff-heart-rates.ts";
import { standoffPersonInsideLine } from "./rules/standoff-person-inside-line.ts";
import { standoffRoomTooSmall } from "./rules/standoff-room-too-small.ts";
import { standoffSecondMissing } from "./rules/standoff-second-missing.ts";
import { standoffShowMissing } from "./rules/standoff-show-missing.ts";
import { standoffStopMissing } from "./rules/standoff-stop-missing.ts";
import { streamerGetsLittle } from "./rules/streamer-gets-little.ts";
import { strikeRingClosed } from "./rules/strike-ring-closed.ts";
import { strikeRingMisplaced } from "./rules/strike-ring-misplaced.ts";
import { strikeRingMissing } from "./rules/strike-ring-missing.ts";
import { strikeRingNearPrimary } from "./rules/strike-ring-near-primary.ts";
import { strikeRingNotEarthed } from "./rules/strike-ring-not-earthed.ts";
import { switchCurrentContinuous } from "./rules/switch-current-continuous.ts";
import { switchVoltageMargin } from "./rules/switch-voltage-margin.ts";
import { switchedOffCurrentHigh } from "./rules/switched-off-current-high.ts";
import { tankAboveSecondary } from "./rules/tank-above-secondary.ts";
import { thermistorWarm } from "./rules/thermistor-warm.ts";
import { topLoadHigh } from "./rules/top-load-high.ts";
import { topLoadLow } from "./rules/top-load-low.ts";
import { topLoadMissing } from "./rules/top-load-missing.ts";
import { topLoadNarrow } from "./rules/top-load-narrow.ts";
import { toroidProportions } from "./rules/toroid-proportions.ts";
import { tripCutsBurst } from "./rules/trip-cuts-burst.ts";
import { tripVoltageOutOfRange } from "./rules/trip-voltage-out-of-range.ts";
import { turnsDischarge } from "./rules/turns-discharge.ts";
import { turnsFew } from "./rules/turns-few.ts";
import { turnsMany } from "./rules/turns-many.ts";
import { voltageNotBounded } from "./rules/voltage-not-bounded.ts";
import { windingEndBreaksOut } from "./rules/winding-end-breaks-out.ts";
import { windingFlashover } from "./rules/winding-flashover.ts";
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
  bankAlternatingVoltage,
  bankCurrentHigh,
  bankDissipationMissing,
  bankHot,
  bankLeftCharged,
  bankOverVoltage,
  bankRatingMissing,
  bankSharesUnequally,
  bankSlopeSteep,
  bankToleranceMovesTune,
  baseLow,
  bleederHot,
  bleederMissing,
  breakoutEarly,
  breakoutLate,
  breakoutNotReached,
  breakoutOutOfReach,
  bridgeNeverCommutates,
  burdenHot,
  burdenVoltageHigh,
  burstEndedEarly,
  burstLedgerOpen,
  burstNotComputed,
  burstTrainUnsettled,
  busCapacitorCurrentHigh,
  busCapacitorHot,
  busCapacitorOverVoltage,
  busDischargeSlow,
  busRippleLarge,
  busSagLarge,
  busSharesUnequally,
  busStarved,
  busStoredEnergy,
  coatingMissing,
  coatingThin,
  coatingTrapsAir,
  controlTransformerOverloaded,
  couplingHigh,
  couplingLow,
  deadTimeLong,
  deadTimeMissing,
  deadTimeShort,
  dutyHigh,
  edgeGuessed,
  energyReturnedLarge,
  feedbackStartDoubtful,
  feedbackWorksAgainst,
  fewHalfCycles,
  fixedFrequencyOffPole,
  fuseAgainstInrush,
  fuseBelowCurrent,
  fuseMissing,
  gateMagnetisingCurrentHigh,
  gateOvershoots,
  gateSlow,
  gateTransformerSaturates,
  gateVoltageOutOfRange,
  gatesEarly,
  gatesLate,
  guessDecides,
  heatsinkHot,
  inrushHigh,
  interrupterLimitsMissing,
  interrupterOverLimits,
  junctionNearLimit,
  junctionOverLimit,
  junctionSwings,
  layersClose,
  leadsGuessed,
  leadsLarge,
  mainsCurrentHigh,
  matchTapBeyond,
  matchTapInside,
  matchTapNearEnd,
  mistuned,
  modeNearHarmonic,
  nobodyListed,
  objectWithinReach,
  onTimePastNotch,
  overcurrentAboveSwitch,
  overcurrentFarAboveBurst,
  overcurrentMissing,
  peakCurrentOverPulse,
  peopleShiftTune,
  personWithinReach,
  poleNotAimed,
  poleUndecided,
  polesClose,
  primaryAboveBase,
  primaryConductorHot,
  primaryNearWinding,
  primaryTall,
  primaryTurnsClose,
  qImplausible,
  qLow,
  regulatorDropsOut,
  regulatorHot,
  rodNotEarthed,
  roomNotDescribed,
  roomShiftsTune,
  roomWithinReach,
  secondaryHot,
  senseTransformerLeads,
  senseTransformerMissing,
  standoffAirClosed,
  standoffBarrierInsideLine,
  standoffBreakerOutOfReach,
  standoffCrewInsideStrike,
  standoffDoseFull,
  standoffEarthMissing,
  standoffExitMissing,
  standoffHazardOpen,
  standoffHeartRates,
  standoffPersonInsideLine,
  standoffRoomTooSmall,
  standoffSecondMissing,
  standoffShowMissing,
  standoffStopMissing,
  streamerGetsLittle,
  strikeRingClosed,
  strikeRingMisplaced,
  strikeRingMissing,
  strikeRingNearPrimary,
  strikeRingNotEarthed,
  switchCurrentContinuous,
  switchVoltageMargin,
  switchedOffCurrentHigh,
  tankAboveSecondary,
  thermistorWarm,
  topLoadHigh,
  topLoadLow,
  topLoadMissing,
  topLoadNarrow,
  toroidProportions,
  tripCutsBurst,
  tripVoltageOutOfRange,
  turnsDischarge,
  turnsFew,
  turnsMany,
  voltageNotBounded,
  windingEndBreaksOut,
  windingFlashover,
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
