/** `README.txt`: how the controller is wired, and what must be true before it is connected to a bridge. */
import type { FirmwareSetting } from "./limits-header.ts";

export function readingText({ idlesHigh, heartbeat }: FirmwareSetting, kind: "stored" | "serial"): string {
  const plays =
    kind === "stored"
      ? ["The program plays the schedule in schedule.h once each time the key is closed."]
      : [
          "The program follows MIDI on its serial line (31250 baud, 8 bits, no parity): note on, note off, channel",
          "volume, all sound off. The heartbeat is MIDI's active sensing (FE): no pulse leaves before it was heard, and",
          `none ${Math.round(heartbeat * 1000)} ms after it was last heard. A keyboard that does not send it stays silent.`,
        ];
  return [
    "Gate pulses for the optical transmitter of a double-resonant solid-state Tesla coil",
    "",
    ...plays,
    "",
    "Controller   ATmega328P at 16 MHz with a crystal, 5 V",
    `Output       PB1 (OC1A). ${idlesHigh ? "Low" : "High"} lights the transmitter. A resistor of 10 kilohm from PB1 to`,
    `             ${idlesHigh ? "5 V" : "ground"} keeps the transmitter dark while the controller starts or is absent.`,
    "Key          PD2 to ground through a key or dead-man switch, held closed by the operator. Open stops. After every",
    "             start or reset it must be seen open before it counts as closed.",
    ...(kind === "serial"
      ? ["Serial       RXD (PD0), from MIDI through its optocoupler, or from a serial adapter."]
      : []),
    "Clock        The internal oscillator is not good enough: the limits are counted from the crystal.",
    "Fuses        Brown-out detection at 4.3 V; no boot loader that blinks or waits on other pins.",
    "",
    "Build        make          (Debian: apt-get install gcc-avr avr-libc avrdude make)",
    "Files        limits.h has every limit with the value it was made from; pulse.c alone raises the output.",
    "",
    "What it holds by itself: longest on-time, shortest gap, duty in any 20 ms, pulses in any 0.1 s. The end of each",
    "pulse is set in hardware before the pulse begins. A watchdog of 15 ms restarts a program that hangs, with the",
    "output at rest and the key to be opened first.",
    "",
    "What it does not hold: a shorted transmitter or driver, a stopped crystal in mid-pulse, a wrong limit. Check with an",
    "oscilloscope at the receiver, with the bus unplugged and discharged, before the bridge is powered: rest level at",
    "power-up and in reset, the longest pulse, the key, the heartbeat.",
    "The limits protect parts, not people. The bus kills with or without pulses. Local codes and licensed practice come",
    "first.",
    "",
  ].join("\n");
}
