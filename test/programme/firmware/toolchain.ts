/** The Debian cross-compiler, and an instruction-level simulator of the controller with its timer, watchdog and serial line. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  AVRClock,
  AVRIOPort,
  AVRTimer,
  AVRUSART,
  AVRWatchdog,
  avrInstruction,
  CPU,
  clockConfig,
  portBConfig,
  portDConfig,
  timer1Config,
  usart0Config,
  watchdogConfig,
} from "avr8js";
import type { FirmwareFile } from "../../../src/programme/firmware/firmware-files.ts";

const cyclesPerSecond = 16e6;

/** Whether the cross-compiler is there; `npm test` installs it where it may. */
export const hasCompiler = ((): boolean => {
  try {
    execFileSync("avr-gcc", ["--version"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

export interface Program {
  readonly memory: Uint16Array;
  /** First address of data memory after the last variable. */
  readonly endOfVariables: number;
}

/** Compiles as the Makefile does. Throws with the compiler's words on any warning. */
export function compiled(files: readonly FirmwareFile[], ...flags: string[]): Program {
  const folder = mkdtempSync(join(tmpdir(), "coilwright-firmware-"));
  try {
    for (const { name, text } of files) writeFileSync(join(folder, name), text);
    const asked = /^FLAGS = (.*)$/m.exec(files.find(({ name }) => name === "Makefile")?.text ?? "")?.[1] ?? "";
    const sources = files.map(({ name }) => name).filter((name) => name.endsWith(".c"));
    const run = (program: string, ...parameters: string[]) =>
      execFileSync(program, parameters, { cwd: folder, stdio: ["ignore", "pipe", "pipe"] });
    run("avr-gcc", ...asked.split(" "), ...flags, "-o", "coil.elf", ...sources);
    run("avr-objcopy", "-O", "binary", "-R", ".eeprom", "coil.elf", "coil.bin");
    const bytes = readFileSync(join(folder, "coil.bin"));
    const memory = new Uint16Array(0x4000);
    new Uint8Array(memory.buffer).set(bytes);
    const end = /^([0-9a-f]+) . _end$/m.exec(run("avr-nm", "coil.elf").toString())?.[1] ?? "";
    return { memory, endOfVariables: Number.parseInt(end, 16) - 0x800000 };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface Edge {
  /** [s] since power-up */
  readonly at: number;
  readonly high: boolean;
}

/** The controller on a bench: its output recorded, its key in our hand. */
export class Controller {
  readonly edges: Edge[] = [];
  readonly cpu: CPU;
  resets = 0;
  private readonly key: AVRIOPort;
  private readonly serial: AVRUSART;
  private high = false;

  /** The stack grows down from the end of memory. */
  lowestStack = 0x8ff;
  readonly endOfVariables: number;

  constructor({ memory, endOfVariables }: Program) {
    this.endOfVariables = endOfVariables;
    this.cpu = new CPU(memory);
    const clock = new AVRClock(this.cpu, cyclesPerSecond, clockConfig);
    const output = new AVRIOPort(this.cpu, portBConfig);
    this.key = new AVRIOPort(this.cpu, portDConfig);
    new AVRTimer(this.cpu, timer1Config);
    new AVRWatchdog(this.cpu, watchdogConfig, clock);
    this.serial = new AVRUSART(this.cpu, usart0Config, cyclesPerSecond);
    this.closeKey(false);
    output.addListener(() => {
      // 0 low, 1 high, 2 and 3 input: the resistor on the board holds it at rest.
      const high = output.pinState(1) === 1;
      if (high === this.high) return;
      this.high = high;
      this.edges.push({ at: this.time, high });
    });
    const reset = this.cpu.reset.bind(this.cpu);
    this.cpu.reset = () => {
      this.resets++;
      reset();
    };
  }

  get time(): number {
    return this.cpu.cycles / cyclesPerSecond;
  }

  /** Closed pulls the pin to ground. */
  closeKey(closed: boolean): void {
    this.key.setPin(2, !closed);
  }

  runFor(seconds: number): void {
    const end = this.cpu.cycles + seconds * cyclesPerSecond;
    while (this.cpu.cycles < end) {
      avrInstruction(this.cpu);
      this.cpu.tick();
      const stack = this.cpu.dataView.getUint16(93, true);
      if (stack > 0 && stack < this.lowestStack) this.lowestStack = stack;
    }
  }

  /** The program stands still while timers run: a processor that hangs with interrupts off. */
  hangFor(seconds: number): void {
    const end = this.cpu.cycles + seconds * cyclesPerSecond;
    const status = this.cpu.data[95] ?? 0;
    this.cpu.data[95] = status & 0x7f;
    while (this.cpu.cycles < end) {
      this.cpu.cycles += 2;
      this.cpu.tick();
    }
    this.cpu.data[95] = status;
  }

  /** One byte on the serial line, in its own time. */
  send(...bytes: readonly number[]): void {
    for (const byte of bytes) {
      while (!this.serial.writeByte(byte)) this.runFor(20e-6);
      this.runFor(10 / 31_250);
    }
  }

  /** Pulses so far, in seconds since power-up; the last one may still be on. */
  pulses(): { start: number; end: number }[] {
    const pulses: { start: number; end: number }[] = [];
    for (const { at, high } of this.edges) {
      if (high) pulses.push({ start: at, end: Number.POSITIVE_INFINITY });
      else if (pulses.length > 0) (pulses[pulses.length - 1] as { end: number }).end = at;
    }
    return pulses;
  }
}
