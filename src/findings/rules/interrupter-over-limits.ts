import { defineRule, setting } from "../rule.ts";
import { hertz, percent, quantityText, seconds } from "../words.ts";

export const interrupterOverLimits = defineRule({
  id: "interrupter-over-limits",
  room: "burst",
  says: "A setting above the interrupter's own limits is cut, or it shows that the limits are not what stands in the file.",
  source: "common-practice",
  judge(context) {
    const { interrupter } = context.coil;
    if (interrupter?.limits === undefined) return [];
    const { onTime, rate, limits } = interrupter;
    const over = [
      ...(onTime > limits.onTime
        ? [
            {
              path: "interrupter.onTime",
              what: `the on-time of ${seconds(onTime)} is above its limit of ${seconds(limits.onTime)}`,
              expected: `at most ${seconds(limits.onTime)}`,
              value: quantityText(context, {
                path: "interrupter.onTime",
                value: limits.onTime,
                dimension: "time",
                toward: "down",
              }),
            },
          ]
        : []),
      ...(rate > limits.rate
        ? [
            {
              path: "interrupter.rate",
              what: `the rate of ${hertz(rate)} is above its limit of ${hertz(limits.rate)}`,
              expected: `at most ${hertz(limits.rate)}`,
              value: quantityText(context, {
                path: "interrupter.rate",
                value: limits.rate,
                dimension: "frequency",
                toward: "down",
              }),
            },
          ]
        : []),
      ...(onTime * rate > limits.duty * (1 + 1e-9)
        ? [
            {
              path: "interrupter.rate",
              what: `${seconds(onTime)} at ${hertz(rate)} is a duty of ${percent(onTime * rate)}, above its limit of ${percent(limits.duty)}`,
              expected: `at most ${hertz(limits.duty / onTime)} at that on-time`,
              value: quantityText(context, {
                path: "interrupter.rate",
                value: limits.duty / onTime,
                dimension: "frequency",
                toward: "down",
              }),
            },
          ]
        : []),
      ...(1 / rate - onTime < limits.gap * (1 - 1e-9)
        ? [
            {
              path: "interrupter.rate",
              what: `at ${hertz(rate)} ${seconds(1 / rate - onTime)} are left between bursts of ${seconds(onTime)}, less than its limit of ${seconds(limits.gap)}`,
              expected: `a pause of at least ${seconds(limits.gap)}: at most ${hertz(1 / (onTime + limits.gap))} at that on-time`,
              value: quantityText(context, {
                path: "interrupter.rate",
                value: 1 / (onTime + limits.gap),
                dimension: "frequency",
                toward: "down",
              }),
            },
          ]
        : []),
    ];
    return over.map(({ path, what, expected, value }) => ({
      severity: "fix" as const,
      path,
      what,
      expected,
      evidence: ["interrupter.limits"],
      remedies: [setting({ path, value })],
    }));
  },
});
