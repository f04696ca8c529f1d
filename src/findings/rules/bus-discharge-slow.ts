import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { number, watts } from "../words.ts";

/** Seconds to 60 V d.c. from which it is worth a look, and from which nobody waits. Common practice, no source. */
const [look, fix] = [60, 300];
/** Heat [W] beyond which a bleeder is no longer a small resistor. */
const gentle = 6;

export const busDischargeSlow = defineRule({
  id: "bus-discharge-slow",
  room: "driver",
  says: "Nobody expects a bus that has been unplugged for a minute to be charged; many are, and a bleeder that broke makes it days.",
  source: "ideal-rectifier",
  needs: ["bus.dischargeTime", "bus.bleederPower", "bus.storedEnergy"],
  judge(context) {
    const { supply } = context.coil;
    const time = context.figure("bus.dischargeTime");
    const bleeder = supply?.capacitors.bleeder;
    if (time === undefined || bleeder === undefined) return [];
    const most = time.high ?? time.value;
    if (most <= look) return [];
    const path = "supply.capacitors.bleeder";
    const value = (0.95 * bleeder * look) / most;
    const power = (context.value("bus.bleederPower") * bleeder) / value;
    return [
      {
        severity: most > fix ? "fix" : "look",
        path,
        what: `the bus takes ${number(time.value)} s to fall to 60 V after the plug is out, up to ${number(most)} s within its tolerances, and never does where a bleeder is open`,
        expected: `at most ${look} s; wait, then measure on every capacitor`,
        evidence: ["supply.capacitors.each", "supply.mains"],
        remedies: [
          ...(power <= gentle
            ? [setTo(context, { path, value, dimension: "resistance", digits: 2, toward: "down" })]
            : []),
          byHand(
            power <= gentle
              ? `a bleeder of that value takes ${watts(power)}; choose one rated for twice that`
              : `bleeders that do it in ${look} s take ${watts(power)} each all the time; let a relay that drops out with the mains connect them`,
          ),
          byHand("print the time on the bring-up sheet and on the case"),
        ],
      },
    ];
  },
});
