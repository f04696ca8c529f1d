export { type Branch, branchesOf, type Way } from "./branch.ts";
export { type ControlHeadroom, controlHeadroom } from "./control-supply.ts";
export { burdenVoltage, currentTransformerFlux, currentTransformerLead } from "./current-transformer.ts";
export { type GateFlux, gateChargePower, gateFlux, gateMagnetisingCurrent } from "./gate-drive.ts";
export { type Inrush, inrush } from "./inrush.ts";
export { capacitorEnergy, dischargeTime, mainsPeak } from "./mains.ts";
export { modeOfResonance } from "./mode-of-resonance.ts";
export type {
  BurstNetwork,
  Bus,
  FeedbackLoop,
  OvercurrentTrip,
  PrimaryLoop,
  SecondaryMode,
  Streamer,
  SwitchDrop,
} from "./network.ts";
export { leakageInductance, mutualOfCoupling, requireNetwork } from "./network.ts";
export { busOfSupply, networkOfCoil, type ResonatorValues } from "./network-of-coil.ts";
export { bridgeRipple, doublerRipple, type RectifierLoad, type Ripple } from "./rectifier.ts";
export { type CircuitState, stateAtRest } from "./state.ts";
export { type AffineSystem, affineSystem } from "./state-matrix.ts";
export { type FosterTerm, steadyTrainRise, thermalStep, transientImpedance } from "./thermal-network.ts";
