export { assess } from "./assess.ts";
export type { Context, Judgement, Rule } from "./rule.ts";
export { rules } from "./rule-list.ts";
