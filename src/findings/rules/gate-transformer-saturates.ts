import { graded } from "../graded.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { number, teslas } from "../words.ts";

/** Part of the greatest flux density that is used. Common practice, no source. */
const used = 0.8;

export const gateTransformerSaturates = defineRule({
  id: "gate-transformer-saturates",
  room: "driver",
  says: "The first half-cycle takes the whole swing of the core from zero; a core that saturates shorts the gate driver in the middle of it.",
  source: "gate-transformer",
  needs: ["gate.transformer.flux"],
  judge(context) {
    const transformer = context.coil.bridge?.gate.transformer;
    if (transformer === undefined) return [];
    const flux = context.value("gate.transformer.flux");
    const { fluxMax, turns } = transformer;
    const severity = graded({ now: flux }, { look: used * fluxMax, fix: fluxMax });
    if (severity === undefined) return [];
    const path = "bridge.gate.transformer.turns";
    return [
      {
        severity,
        path,
        what: `the first half-cycle swings the gate transformer's core to ${teslas(flux)}; it holds ${teslas(fluxMax)}`,
        expected: `at most ${teslas(used * fluxMax)}`,
        evidence: ["bridge.gate.transformer.coreArea", "bridge.gate.transformer.fluxMax", "bridge.gate.drive"],
        remedies: [
          setting({ path, value: number(Math.ceil((1.05 * turns * flux) / (used * fluxMax))) }),
          byHand("use a core of more section, or one of a material with more flux"),
        ],
      },
    ];
  },
});
