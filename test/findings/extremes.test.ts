import { describe, expect, it } from "vitest";
import { assess } from "../../src/findings/index.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import { editedText, studied } from "./changed.ts";
import { quietDriver } from "./quiet-driver.ts";

const away = [
  "primary",
  "tank",
  "bridge",
  "supply",
  "feedback",
  "interrupter",
  "topload",
  "site",
  "bridge.gate.transformer",
  "bridge.deadTime",
  "supply.control",
  "supply.inrush",
  "supply.capacitors.bleeder",
  "feedback.transformer",
  "feedback.overcurrent",
  "interrupter.limits",
  "tank.bank.dissipation",
  "tank.bank.voltage",
];
const extremes: readonly (readonly [string, string])[] = [
  ["supply.mains", "5 V 50 Hz"],
  ["supply.mains", "1 kV 10 Hz"],
  ["supply.rectifier", "doubler"],
  ["supply.capacitors.each", "0.1 µF"],
  ["supply.capacitors.each", "10 F"],
  ["supply.capacitors.bleeder", "1 Ω"],
  ["supply.capacitors.series", "100"],
  ["supply.fuse", "50 mA"],
  ["interrupter.onTime", "0.1 µs"],
  ["interrupter.onTime", "5 ms"],
  ["interrupter.rate", "0.01 Hz"],
  ["interrupter.rate", "5 kHz"],
  ["feedback.delay", "100 µs"],
  ["feedback.lead", "3 µs"],
  ["feedback.overcurrent", "0.1 A"],
  ["feedback.sense", "secondaryCurrent"],
  ["feedback.sense", "{ fixedFrequency: 20 MHz }"],
  ["feedback.transformer", "{ ratio: 1, burden: 10 kΩ }"],
  ["feedback.transformer", "{ ratio: 100000, burden: 0.01 Ω }"],
  ["bridge.kind", "full"],
  ["bridge.gate.resistor", "0 Ω"],
  ["bridge.gate.charge", "100 µC"],
  ["bridge.gate.drive", "60 V"],
  ["bridge.deadTime", "100 µs"],
  ["bridge.switch.pulse", "0.1 A"],
  ["bridge.switch.junctionMax", "50 °C"],
  ["bridge.heatsink.ambient", "100 °C"],
  ["interrupter.limits", "{ onTime: 1 ms, duty: 100 %, rate: 50 kHz, gap: 0 µs }"],
  ["interrupter.limits", "{ onTime: 0.1 µs, duty: 0.001 %, rate: 0.01 Hz, gap: 1 s }"],
  ["tank.bank.dissipation", "0.5"],
  ["tank.bank.voltage", "1 V"],
  ["tank.leads", "{ inductance: 0 µH, resistance: 0 mΩ }"],
];

// law: whatever a coil file may say, rules speak in finite numbers and no remedy leaves a file that is no coil
describe("a coil file at the ends of what it can say", () => {
  const files: readonly (readonly [string, string | undefined])[] = [
    ...away.map((path) => [path, undefined] as const),
    ...extremes,
  ];
  it.each(files)("%s: %s", (path, value) => {
    const bursts = studied(editedText(quietDriver, { [path]: value }));
    for (const finding of assess(bursts)) {
      for (const words of [finding.what, finding.expected ?? "", ...finding.remedies.map(({ says }) => says)]) {
        expect(words).not.toMatch(/NaN|undefined|Infinity/);
      }
      expect([finding.rule, finding.remedies.length > 0]).toEqual([finding.rule, true]);
      for (const { edits, says } of finding.remedies) {
        const edited = editCoil(bursts.file.text, edits);
        expect([says, "text" in edited && readCoil(edited.text).coil !== undefined]).toEqual([says, true]);
      }
    }
  });
});
