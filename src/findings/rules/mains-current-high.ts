import { burstsThinned } from "../bursts.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes, number, watts } from "../words.ts";

/** Effective current [A] of a small socket for hours, and of a socket circuit. From memory. */
const [small, circuit] = [10, 16];

export const mainsCurrentHigh = defineRule({
  id: "mains-current-high",
  room: "driver",
  says: "A rectifier with a capacitor takes its current in short peaks; what it heats in plug and cable is the effective value, not the power.",
  source: "ideal-rectifier",
  needs: ["mains.currentRms", "mains.power"],
  judge(context) {
    const found = greatest(context, "mains.currentRms", "high");
    if (found === undefined) return [];
    const most = found.most.high ?? found.most.value;
    if (most <= small) return [];
    const factor = found.study.figures.get("mains.powerFactor")?.value;
    const power = found.study.figures.get("mains.power")?.value ?? context.value("mains.power");
    return [
      {
        severity: found.now.value > circuit ? "fix" : "look",
        path: "supply.mains",
        what: `the bus takes ${amperes(found.most.value)} effective ${found.basis}, up to ${amperes(most)}, for ${watts(power)}${factor === undefined ? "" : ` at a power factor of ${number(factor)}`}`,
        expected: `at most ${amperes(small)} from a small socket for hours, ${amperes(circuit)} from a circuit`,
        evidence: [...found.evidence, "mains.powerFactor"],
        remedies: [
          ...burstsThinned(context, small / most),
          byHand("put a choke between rectifier and bus, or use a supply with power-factor correction"),
          byHand("have a licensed electrician provide a larger circuit"),
        ],
      },
    ];
  },
});
