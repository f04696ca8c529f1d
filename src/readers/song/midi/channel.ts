/** What a MIDI channel remembers: the settings that decide how its notes sound. */
import type { OpenNote } from "./open-note.ts";

/** Controller numbers (midi-1, table of controllers). */
export const controller = {
  dataEntry: 6,
  volume: 7,
  expression: 11,
  dataEntryFine: 38,
  sustain: 64,
  sostenuto: 66,
  unregisteredFine: 98,
  unregistered: 99,
  registeredFine: 100,
  registered: 101,
  allSoundOff: 120,
  resetControllers: 121,
  allNotesOff: 123,
} as const;

/** Registered parameters, coarse × 128 + fine. */
const parameter = { bendRange: 0, fineTuning: 1, coarseTuning: 2 } as const;
const noParameter = 0x3fff;

export class Channel {
  readonly sounding = new Set<OpenNote>();
  /** Of these, the ones whose key is up and that a pedal holds. */
  readonly held = new Set<OpenNote>();
  pedal = false;
  /** Percussion: its notes are noise, whatever their key. */
  readonly drums: boolean;
  private volume = 100;
  private expression = 127;
  private bend = 0;
  private selected = noParameter;
  /** [semitones] either way, whole and hundredths. */
  private range = { coarse: 2, fine: 0 };
  /** 14 bits, 8192 in the middle, ±1 semitone. */
  private fineTuning = 8192;
  private coarseTuning = 64;

  constructor({ drums }: { drums: boolean }) {
    this.drums = drums;
  }

  /** Semitones that its notes sound above their keys. */
  get offset(): number {
    if (this.drums) return 0;
    const range = this.range.coarse + this.range.fine / 100;
    return this.coarseTuning - 64 + (this.fineTuning - 8192) / 8192 + (this.bend / 8192) * range;
  }

  /** Channel volume times expression, each as a share of its 127 steps. */
  get level(): number {
    return (this.volume / 127) * (this.expression / 127);
  }

  /** @param position 14 bits, 8192 at rest */
  bendTo(position: number): void {
    this.bend = position - 8192;
  }

  /** A controller that only sets something; pedals and the ends of notes are for the performer. */
  set(number: number, value: number): void {
    switch (number) {
      case controller.volume:
        this.volume = value;
        break;
      case controller.expression:
        this.expression = value;
        break;
      case controller.registered:
        this.selected = (value << 7) | (this.selected & 0x7f);
        break;
      case controller.registeredFine:
        this.selected = (this.selected & 0x3f80) | value;
        break;
      case controller.unregistered:
      case controller.unregisteredFine:
        // What follows is meant for a maker's own parameter.
        this.selected = noParameter;
        break;
      case controller.dataEntry:
        this.enterCoarse(value);
        break;
      case controller.dataEntryFine:
        this.enterFine(value);
        break;
    }
  }

  /** "Reset all controllers": expression, bend and parameter selection; volume, range and tuning stay (midi-rp-15). */
  resetControllers(): void {
    this.expression = 127;
    this.bend = 0;
    this.selected = noParameter;
  }

  /** As after switching on. */
  resetAll(): void {
    this.resetControllers();
    this.volume = 100;
    this.range = { coarse: 2, fine: 0 };
    this.fineTuning = 8192;
    this.coarseTuning = 64;
  }

  private enterCoarse(value: number): void {
    if (this.selected === parameter.bendRange) this.range = { coarse: value, fine: 0 };
    if (this.selected === parameter.fineTuning) this.fineTuning = (value << 7) | (this.fineTuning & 0x7f);
    if (this.selected === parameter.coarseTuning) this.coarseTuning = value;
  }

  private enterFine(value: number): void {
    if (this.selected === parameter.bendRange) this.range = { ...this.range, fine: Math.min(value, 99) };
    if (this.selected === parameter.fineTuning) this.fineTuning = (this.fineTuning & 0x3f80) | value;
  }
}
