import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { byHand, defineRule } from "../rule.ts";

const because: Readonly<Record<Exclude<BurstStudy["reached"], "endTime">, string>> = {
  eventLimit: "the bridge switches more often than any burst should",
  stepLimit: "the circuit needs finer steps than any coil should",
  chatter: "the gates chatter to and fro at one moment",
  overflow: "current or voltage grows without bound",
};

export const burstEndedEarly = defineRule({
  id: "burst-ended-early",
  room: "burst",
  says: "A burst whose simulation stopped early has figures of its beginning alone: heat, current and reach may be greater.",
  source: "burst-simulation",
  judge({ study }) {
    if (study === undefined || study.reached === "endTime") return [];
    return [
      {
        severity: "fix",
        path: "feedback",
        what: `the simulation of the burst stopped before its end, because ${because[study.reached]}`,
        expected: "a burst that can be followed to its end",
        evidence: ["interrupter"],
        remedies: [
          byHand("look for a delay, a lead or an on-time that is out by a power of ten"),
          byHand("take none of the burst's figures for its greatest"),
        ],
      },
    ];
  },
});
