import { topVoltage } from "../estimates.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { field } from "../words.ts";

const look = 2e5;

export const coatingMissing = defineRule({
  id: "coating-missing",
  room: "shape",
  says: "Bare enamel at this stress gathers dust and moisture and tracks.",
  source: "common-practice",
  needs: ["winding.peakFieldPerVolt"],
  judge(context) {
    const voltage = topVoltage(context);
    if (voltage === undefined || context.coil.secondary.coating !== undefined) return [];
    const worst = context.value("winding.peakFieldPerVolt") * voltage.high;
    if (worst < look) return [];
    return [
      {
        severity: "look",
        path: "secondary",
        what: `the winding has no coating and up to ${field(worst)} along it ${voltage.basis}`,
        expected: `a coat of varnish where more than ${field(look)} stand along it`,
        evidence: voltage.evidence,
        remedies: [
          setting({ path: "secondary.coating", value: "{ material: polyurethane, thickness: 0.4 mm }" }),
          byHand("varnish it in several thin coats"),
        ],
      },
    ];
  },
});
