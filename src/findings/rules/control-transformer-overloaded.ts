import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

/** Effective current of the winding over the direct current behind bridge and reservoir. Common practice, no source. */
const peaky = 1.7;

export const controlTransformerOverloaded = defineRule({
  id: "control-transformer-overloaded",
  room: "driver",
  says: "Behind rectifier and reservoir a transformer gives its current in peaks and heats as if it were nearly twice as much.",
  source: "common-practice",
  needs: ["control.load"],
  judge(context) {
    const control = context.coil.supply?.control;
    const load = context.value("control.load");
    if (control === undefined || peaky * load <= control.current) return [];
    const path = "supply.control.current";
    return [
      {
        severity: load > control.current ? "fix" : "look",
        path,
        what: `the rails take ${amperes(load)}, about ${amperes(peaky * load)} effective in the transformer, which is rated for ${amperes(control.current)}`,
        expected: `at most ${amperes(control.current / peaky)} of direct current`,
        evidence: ["supply.control.rails"],
        remedies: [
          setTo(context, { path, value: 1.05 * peaky * load, dimension: "current", digits: 2, toward: "up" }),
          byHand("use a larger transformer; its voltage under load is higher too"),
        ],
      },
    ];
  },
});
