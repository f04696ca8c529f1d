import { wallsOf } from "../../description/walls.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { standoffOf } from "../standoff-of.ts";
import { roughLength } from "../words.ts";

export const standoffBarrierInsideLine = defineRule({
  id: "standoff-barrier-inside-line",
  room: "stand-off",
  says: "Bystanders come as near as the barrier lets them.",
  source: "stand-off-practice",
  judge(context) {
    const { show } = context.coil;
    const found = show && standoffOf(context);
    const line = found?.figures.get("standoff.audience");
    if (show === undefined || found === undefined || line === undefined) return [];
    const { barrier } = show;
    if (barrier !== undefined && barrier >= line.value) return [];
    const strike = (found.figures.get("standoff.strike")?.value ?? 0) + found.place.radius;
    const fits = 1.05 * line.value < (wallsOf(context.coil)?.ahead ?? Number.POSITIVE_INFINITY);
    return [
      {
        severity: barrier === undefined || barrier < strike ? ("stop" as const) : ("fix" as const),
        path: "show.barrier",
        what:
          barrier === undefined
            ? `no barrier is given, and the line for bystanders is ${roughLength(line.value)} from the axis`
            : `the barrier is ${roughLength(barrier)} from the axis, and the line for bystanders is ${roughLength(line.value)}`,
        expected: `a barrier at or outside the line, which is decided by this: ${found.line.decides?.says ?? "the reach"}`,
        evidence: ["burst.streamerLength", "burst.peakTopVoltage"],
        remedies: [
          ...(fits
            ? [
                setTo(context, {
                  path: "show.barrier",
                  value: 1.02 * line.value,
                  dimension: "length",
                  digits: 2,
                  toward: "up",
                }),
              ]
            : []),
          byHand("lower on-time, rate and overcurrent limits in the hardware, and judge it again"),
        ],
      },
    ];
  },
});
