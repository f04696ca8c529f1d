import { defineRule, setting } from "../rule.ts";
import { seconds } from "../words.ts";

export const interrupterLimitsMissing = defineRule({
  id: "interrupter-limits-missing",
  room: "burst",
  says: "Reach, heat and voltage are bounded by the interrupter's hard limits; without them a stuck button bounds nothing.",
  source: "common-practice",
  judge({ coil }) {
    const { interrupter } = coil;
    if (interrupter === undefined || interrupter.limits !== undefined) return [];
    const { onTime, rate } = interrupter;
    const duty = Math.min(1, onTime * rate);
    const asSet = `{ onTime: ${write(onTime * 1e6, 3)} µs, duty: ${write(duty * 100, 2)} %, rate: ${write(rate, 3)} Hz, gap: ${write(Math.max(0, 1 / rate - onTime) * 1e6, 3)} µs }`;
    return [
      {
        severity: "fix",
        path: "interrupter",
        what: `nothing but the setting of ${seconds(onTime)} bounds the length of a burst`,
        expected: "limits: { onTime, duty, rate, gap } as the interrupter enforces them",
        remedies: [setting({ path: "interrupter.limits", value: asSet })],
      },
    ];
  },
});

const write = (value: number, digits: number) => String(Number(value.toPrecision(digits)));
