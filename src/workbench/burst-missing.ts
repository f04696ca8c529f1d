/** What the file would have to say before a figure can be computed. */
import type { Coil } from "../description/coil.ts";
import type { BurstStudy } from "./burst-contract.ts";
import type { FullSetting } from "./burst-setting.ts";

type Missing = BurstStudy["missing"][number];

export function missingFor(coil: Coil, setting: FullSetting): Missing[] {
  const { primary, tank, bridge, supply, feedback, interrupter, topload } = coil;
  const section = (path: string, there: unknown, says: string): Missing[] => (there ? [] : [{ path, says }]);
  return [
    ...section("primary", primary, "without a primary there is nothing to drive: no burst"),
    ...section("tank", tank, "without a tank capacitor there is no circuit: no burst"),
    ...section("bridge", bridge, "without a bridge there is no burst, no switch to lose heat and no gate drive"),
    ...section("supply", supply, "without a supply there is no bus: no burst, no mains current, no stored energy"),
    ...section("feedback", feedback, "without feedback nothing tells the bridge when to switch: no burst"),
    ...section(
      "interrupter",
      interrupter || setting.onTime > 0,
      "without an interrupter there is no on-time and no rate: no burst",
    ),
    ...section("topload", topload.length > 0, "without a top load there is no breakout voltage and so no streamer"),
    ...(supply ? supplyMissing(supply) : []),
    ...section(
      "tank.bank.dissipation",
      !tank || tank.bank.dissipation !== undefined,
      "without the bank's dissipation its heat is not known",
    ),
    ...section(
      "bridge.gate.transformer",
      !bridge || bridge.gate.transformer,
      "without a gate-drive transformer there is no flux and no magnetising current; the gate swings from zero",
    ),
    ...section(
      "feedback.transformer",
      !feedback || feedback.transformer,
      "without the current transformer's ratio and burden there is no burden voltage",
    ),
    ...section(
      "feedback.overcurrent",
      !feedback || feedback.overcurrent !== undefined,
      "without an overcurrent setting nothing cuts a burst short",
    ),
  ];
}

function supplyMissing({ capacitors, inrush, control }: NonNullable<Coil["supply"]>): Missing[] {
  return [
    ...(capacitors.bleeder === undefined
      ? [
          {
            path: "supply.capacitors.bleeder",
            says: "without a bleeder the bus stays charged: the time to 60 V is infinite",
          },
        ]
      : []),
    ...(inrush
      ? []
      : [{ path: "supply.inrush", says: "nothing limits the inrush: only half an ohm of mains is reckoned with" }]),
    ...(control ? [] : [{ path: "supply.control", says: "without the control supply no rail's headroom is known" }]),
  ];
}
