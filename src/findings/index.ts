export { assess } from "./assess.ts";
export { type JudgedBursts, judgedBursts } from "./judged-bursts.ts";
export { settingAtLimits, settingUnlit } from "./limits.ts";
export { reasonWords } from "./programme-rule.ts";
export { assessProgramme, programmeRules } from "./programme-rules.ts";
export type { Context, Judgement, Room, Rule } from "./rule.ts";
export { roomOf, rules } from "./rule-list.ts";
export { solveWithStandoff, withStandoff } from "./solve-with-standoff.ts";
