/** A note while it sounds, and the finished note that it becomes. */
import type { Note, Turn } from "../../../description/song.ts";
import type { Second } from "../../../units/si.ts";

export class OpenNote {
  /** The key is down. */
  down = true;
  /** Caught by the sostenuto pedal. */
  caught = false;
  end: Second | undefined;
  readonly voice: number;
  readonly key: number;
  readonly start: Second;
  readonly track: number;
  /** Where its note-on stands in the file. */
  readonly byte: number;
  /** Seconds of a tick where it began: what a note without length gets. */
  readonly shortest: Second;
  private pitch: number;
  private level: number;
  private readonly velocity: number;
  private readonly sound: Note["sound"];
  private readonly bends: Turn[] = [];
  private readonly swells: Turn[] = [];

  constructor(
    begun: Pick<Note, "voice" | "start" | "pitch" | "level" | "velocity" | "sound"> & {
      readonly key: number;
      readonly track: number;
      readonly byte: number;
      readonly shortest: Second;
    },
  ) {
    this.voice = begun.voice;
    this.key = begun.key;
    this.start = begun.start;
    this.track = begun.track;
    this.byte = begun.byte;
    this.shortest = begun.shortest;
    this.pitch = begun.pitch;
    this.level = begun.level;
    this.velocity = begun.velocity;
    this.sound = begun.sound;
  }

  bendTo(pitch: number, at: Second): void {
    if (at === this.start) this.pitch = pitch;
    else turn(this.bends, { at, to: pitch });
  }

  swellTo(level: number, at: Second): void {
    if (at === this.start) this.level = level;
    else turn(this.swells, { at, to: level });
  }

  /** @param end where no end was met */
  note(end: Second): Note {
    const to = Math.max(this.end ?? end, this.start + this.shortest);
    const { voice, start, pitch, velocity, level, sound } = this;
    const within = (turns: readonly Turn[]) => turns.filter(({ at }) => at < to);
    return {
      voice,
      start,
      end: to,
      pitch,
      velocity,
      level,
      sound,
      bends: within(this.bends),
      swells: within(this.swells),
    };
  }
}

/** Of turns at one moment the last one counts. */
function turn(turns: Turn[], next: Turn): void {
  if (turns[turns.length - 1]?.at === next.at) turns.pop();
  turns.push(next);
}
