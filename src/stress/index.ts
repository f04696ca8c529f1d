export {
  type ChannelReach,
  channelCapacitance,
  channelConstants,
  channelLoad,
  channelReach,
  coldFactor,
  keptShare,
  type ReachConstants,
  reachConstants,
  rememberedEnergy,
} from "./channel.ts";
export { type GateStep, gateStep, gateStepAt } from "./gate-step.ts";
export { type HeatStretch, type JunctionCourse, junctionCourse } from "./junction.ts";
export { type MainsCurrent, mainsCurrent } from "./rectifier-current.ts";
export { turnOffEnergy, turnOnEnergy, turnOnOverTurnOff } from "./switching-loss.ts";
