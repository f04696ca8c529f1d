/** A small C program for an ATmega328P that sends the pulses and holds the hard limits by itself. */
import { OutOfDomain } from "../../catalogue/errors.ts";
import type { Schedule } from "../schedule.ts";
import { type FirmwareSetting, limitsHeader } from "./limits-header.ts";
import { notesHeader } from "./notes-header.ts";
import { pulseHeader, pulseSource } from "./pulse-source.ts";
import { readingText } from "./reading-text.ts";
import { storedSchedule } from "./schedule-header.ts";
import { mainSource, playerHeader, serialPlayerSource, storedPlayerSource } from "./song-source.ts";

export interface FirmwareFile {
  readonly name: string;
  readonly text: string;
}

/** [bytes] of the controller's program memory that a schedule may fill; the program itself takes less than 4 kB of the 32. */
const scheduleRoom = 28_000;

/**
 * The program that plays a stored schedule once for each closing of its key.
 *
 * Pure. Edges land within 0.75 µs of the schedule, the interrupt's lateness of up to 2 µs beside.
 *
 * @throws OutOfDomain  a limit that the controller cannot hold, or a schedule that does not fit its memory
 */
export function firmwareOfSchedule(setting: FirmwareSetting, schedule: Schedule): readonly FirmwareFile[] {
  const stored = storedSchedule(schedule);
  if (stored.bytes > scheduleRoom) {
    throw new OutOfDomain(
      "firmwareOfSchedule",
      `the schedule needs ${stored.bytes} bytes, the controller has room for ${scheduleRoom}: ` +
        "shorten the song, or let the controller follow serial MIDI",
    );
  }
  return [
    ...shared(setting, "stored"),
    { name: "player.c", text: storedPlayerSource },
    { name: "schedule.h", text: stored.header },
  ];
}

/**
 * The program that follows MIDI on its serial line while the heartbeat lasts.
 *
 * @throws OutOfDomain  a limit that the controller cannot hold
 */
export function firmwareOfSerial(setting: FirmwareSetting): readonly FirmwareFile[] {
  return [
    ...shared(setting, "serial"),
    { name: "player.c", text: serialPlayerSource },
    { name: "notes.h", text: notesHeader() },
  ];
}

function shared(setting: FirmwareSetting, kind: "stored" | "serial"): FirmwareFile[] {
  return [
    { name: "README.txt", text: readingText(setting, kind) },
    { name: "Makefile", text: makefile },
    { name: "limits.h", text: limitsHeader(setting) },
    { name: "main.c", text: mainSource },
    { name: "player.h", text: playerHeader },
    { name: "pulse.c", text: pulseSource },
    { name: "pulse.h", text: pulseHeader },
  ];
}

const makefile = [
  "# Debian: apt-get install gcc-avr avr-libc avrdude make",
  "FLAGS = -mmcu=atmega328p -std=gnu11 -Os -Wall -Wextra -Werror",
  "",
  "coil.hex: coil.elf",
  "\tavr-objcopy -O ihex -R .eeprom $< $@",
  "",
  "coil.elf: main.c player.c pulse.c $(wildcard *.h)",
  "\tavr-gcc $(FLAGS) -o $@ main.c player.c pulse.c",
  "",
  "clean:",
  "\trm -f coil.elf coil.hex",
  "",
].join("\n");
