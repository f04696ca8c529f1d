/** Events in order of time → notes: keys, pedals, bends and loudness as an instrument would take them. */
import type { Note } from "../../../description/song.ts";
import type { Second } from "../../../units/si.ts";
import { limits } from "../limits.ts";
import { Channel, controller } from "./channel.ts";
import type { Division } from "./chunks.ts";
import { Clock } from "./clock.ts";
import { type EventList, event } from "./events.ts";
import { OpenNote } from "./open-note.ts";
import type { Troubles } from "./troubles.ts";

/** The tenth channel, by the General MIDI agreement. */
const drumChannel = 9;

export interface Performance {
  /** In order of start. */
  readonly notes: readonly Note[];
  readonly end: Second;
}

interface Stage {
  readonly division: Division;
  readonly start: Second;
  readonly troubles: Troubles;
  /** Index of the voice of a track and channel. */
  readonly voiceOf: (track: number, channel: number) => number;
  /** Notes that may still be made. */
  readonly room: number;
}

/**
 * Plays the events.
 *
 * Two note-ons of one key in one track and channel are two notes; a note-off ends the older one. A key struck again while only the pedal
 * holds it ends the earlier note. The sustain pedal is down from 64; the sostenuto pedal holds what is down when it is pressed. Pedals do
 * not hold percussion.
 *
 * @returns undefined where the song is larger than the limits; `troubles` then says so
 * @source  midi-1 (channel voice and mode messages), midi-rp-15 (reset all controllers)
 */
export function perform(events: EventList, stage: Stage): Performance | undefined {
  return new Performer(events, stage).play();
}

const tooManyNotes = `the song has more than ${limits.notes} notes`;
const tooManyTurns = "the song turns pitch, loudness and pedals of its sounding notes millions of times";

function placeOf({ track, channel, key }: { track: number; channel: number; key: number }): number {
  return (track * 2048 + channel) * 128 + key;
}

class Performer {
  private readonly made: OpenNote[] = [];
  private readonly channels = new Map<number, Channel>();
  /** Keys that are down, by track, channel and key; the oldest first. */
  private readonly keys = new Map<number, { head: number; readonly notes: OpenNote[] }>();
  private readonly clock: Clock;
  private readonly trackEnds = new Map<number, Second>();
  private steps = 0;
  private readonly events: EventList;
  private readonly stage: Stage;

  constructor(events: EventList, stage: Stage) {
    this.events = events;
    this.stage = stage;
    this.clock = new Clock(stage.division, stage.start);
  }

  play(): Performance | undefined {
    const { events, stage } = this;
    let end = stage.start;
    for (const index of events.order()) {
      const now = this.clock.at(events.tick[index] ?? 0);
      const byte = events.byte[index] ?? 0;
      if (now > limits.duration) {
        stage.troubles.add("song-too-long", {
          byte,
          detail: `the song lasts longer than ${limits.duration / 3600} hours`,
        });
        end = limits.duration;
        break;
      }
      end = now;
      this.take(index, now);
      if (this.made.length > stage.room || this.steps > limits.steps) {
        const detail = this.made.length > stage.room ? tooManyNotes : tooManyTurns;
        stage.troubles.add("song-too-big", { byte, detail });
        return undefined;
      }
    }
    const notes = this.made.map((note) => note.note(this.endOf(note, end)));
    return { notes, end: notes.reduce((last, note) => Math.max(last, note.end), end) };
  }

  /** Where a note ends that met no end: a key with its track, what the pedal holds with the song. */
  private endOf({ down, track, byte }: OpenNote, end: Second): Second {
    if (!down) return end;
    this.stage.troubles.add("song-note-open", { byte });
    return this.trackEnds.get(track) ?? end;
  }

  private take(index: number, now: Second): void {
    const { events } = this;
    const data = events.data[index] ?? 0;
    const number = events.channel[index] ?? 0;
    switch (events.kind[index]) {
      case event.noteOn:
        this.strike(index, now);
        break;
      case event.noteOff:
        this.release(index, now);
        break;
      case event.control:
        this.control(this.channel(number), { number: data >> 7, value: data & 0x7f, now });
        break;
      case event.bend:
        // The low seven bits come first on the wire.
        this.adjust(this.channel(number), now, (channel) => channel.bendTo(((data & 0x7f) << 7) | (data >> 7)));
        break;
      case event.tempo:
        this.clock.change(events.tick[index] ?? 0, data);
        break;
      case event.reset:
        for (const channel of this.channels.values()) this.reset(channel, now);
        break;
      case event.trackEnd:
        this.trackEnds.set(events.track[index] ?? 0, now);
        break;
    }
  }

  private strike(index: number, now: Second): void {
    const { events, stage } = this;
    const [number, track, data] = [events.channel[index] ?? 0, events.track[index] ?? 0, events.data[index] ?? 0];
    const key = data >> 7;
    const channel = this.channel(number);
    this.steps++;
    this.endHeld(channel, now, key);
    const note = new OpenNote({
      voice: stage.voiceOf(track, number),
      key,
      start: now,
      track,
      shortest: this.clock.tickLength,
      pitch: key + channel.offset,
      level: channel.level,
      velocity: (data & 0x7f) / 127,
      sound: channel.drums ? "noise" : "tone",
      byte: events.byte[index] ?? 0,
    });
    this.made.push(note);
    channel.sounding.add(note);
    const place = placeOf({ track, channel: number, key });
    const queue = this.keys.get(place);
    if (queue === undefined) this.keys.set(place, { head: 0, notes: [note] });
    else queue.notes.push(note);
  }

  private release(index: number, now: Second): void {
    const { events } = this;
    const [channel, track, data] = [events.channel[index] ?? 0, events.track[index] ?? 0, events.data[index] ?? 0];
    const place = placeOf({ track, channel, key: data >> 7 });
    const queue = this.keys.get(place);
    if (queue === undefined) return;
    // Some of them may have been ended by an all-notes-off.
    while (queue.head < queue.notes.length && queue.notes[queue.head]?.down === false) queue.head++;
    const note = queue.notes[queue.head++];
    if (note !== undefined) this.letGo(this.channel(channel), note, now);
    if (queue.head >= queue.notes.length) this.keys.delete(place);
  }

  private letGo(channel: Channel, note: OpenNote, now: Second): void {
    note.down = false;
    if (!channel.drums && (channel.pedal || note.caught)) channel.held.add(note);
    else this.finish(channel, note, now);
  }

  private finish(channel: Channel, note: OpenNote, now: Second): void {
    note.down = false;
    note.end = now;
    channel.sounding.delete(note);
    channel.held.delete(note);
    if (now === note.start) this.stage.troubles.add("song-note-without-length", { byte: note.byte });
  }

  /** Ends what the pedals alone hold: of one key, or what the sostenuto pedal has not caught. */
  private endHeld(channel: Channel, now: Second, key?: number): void {
    for (const note of this.walk(channel.held))
      if (key === undefined ? !note.caught : note.key === key) this.finish(channel, note, now);
  }

  private control(channel: Channel, { number, value, now }: { number: number; value: number; now: Second }): void {
    const down = value >= 64;
    if (number === controller.sustain) {
      channel.pedal = down;
      if (!down) this.endHeld(channel, now);
    } else if (number === controller.sostenuto) {
      for (const note of this.walk(channel.sounding)) note.caught = down && (note.down || note.caught);
      if (!down && !channel.pedal) this.endHeld(channel, now);
    } else if (number === controller.allSoundOff) {
      for (const note of this.walk(channel.sounding)) this.finish(channel, note, now);
    } else if (number === controller.resetControllers) {
      this.adjust(channel, now, () => channel.resetControllers());
      this.raisePedals(channel, now);
    } else if (number >= controller.allNotesOff) {
      for (const note of this.walk(channel.sounding)) if (note.down) this.letGo(channel, note, now);
    } else this.adjust(channel, now, () => channel.set(number, value));
  }

  private raisePedals(channel: Channel, now: Second): void {
    channel.pedal = false;
    for (const note of this.walk(channel.sounding)) note.caught = false;
    this.endHeld(channel, now);
  }

  private reset(channel: Channel, now: Second): void {
    for (const note of this.walk(channel.sounding)) this.finish(channel, note, now);
    channel.pedal = false;
    channel.resetAll();
  }

  /** Changes a channel's settings and turns its sounding notes where that moved pitch or loudness. */
  private adjust(channel: Channel, now: Second, change: (channel: Channel) => void): void {
    const { offset, level } = channel;
    change(channel);
    const [bent, swelled] = [channel.offset !== offset, channel.level !== level];
    if (!bent && !swelled) return;
    for (const note of this.walk(channel.sounding)) {
      if (bent) note.bendTo(note.key + channel.offset, now);
      if (swelled) note.swellTo(channel.level, now);
    }
  }

  /** Each note that is looked at counts as a step of work. */
  private walk(notes: ReadonlySet<OpenNote>): Iterable<OpenNote> {
    this.steps += notes.size;
    return notes;
  }

  private channel(number: number): Channel {
    const known = this.channels.get(number);
    if (known !== undefined) return known;
    const made = new Channel({ drums: number % 16 === drumChannel });
    this.channels.set(number, made);
    return made;
  }
}
