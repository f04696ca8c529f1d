/** Statements → notes: each voice has a clock of its own. */
import type { Note, Song, Turn, Voice } from "../../../description/song.ts";
import type { Ratio, Second } from "../../../units/si.ts";
import { limits } from "../limits.ts";
import type { Mistakes, Spot } from "./mistake.ts";
import type { Sound, Statement, Step } from "./statement.ts";

interface Settings {
  beat: Second;
  strength: Ratio;
  level: Ratio;
  gap: Second;
}

interface Open {
  readonly voice: number;
  readonly start: Second;
  /** Where it would end without a gap. */
  end: Second;
  readonly pitch: number;
  readonly velocity: Ratio;
  readonly level: Ratio;
  readonly sound: Note["sound"];
  readonly bends: Turn[];
  readonly swells: Turn[];
  gap: Second;
}

interface Part extends Settings {
  readonly index: number;
  clock: Second;
  /** What a `+` carries on. */
  last: readonly Open[];
}

/** A glide is a flight of steps: at most a cent high and at least a millisecond long, but never more than this many. */
const mostGlideSteps = 5000;
/** Statements played and steps of glides, in all. */
const mostSteps = 2_000_000;

export class Player {
  private title = "";
  private readonly usual: Settings = { beat: 0.5, strength: 0.8, level: 1, gap: 0 };
  private readonly parts = new Map<string, Part>();
  private part: Part | undefined;
  private readonly made: Open[] = [];
  private steps = 0;
  private duration: Second = 0;
  private stopped = false;
  private readonly mistakes: Mistakes;

  constructor(mistakes: Mistakes) {
    this.mistakes = mistakes;
  }

  play(statements: readonly Statement[]): Song | undefined {
    this.all(statements);
    if (this.stopped) return undefined;
    if (this.made.length === 0) {
      const what = "the tune has no notes";
      const expected = "at least one line of sounds, such as `1: A4 C5 E5`";
      this.mistakes.add({ line: 1, column: 1, length: 1 }, { rule: "song-without-notes", what, expected });
      return undefined;
    }
    const voices: Voice[] = [...this.parts.keys()].map((name) => ({ name }));
    const notes = this.made.map(noteOf).sort((a, b) => a.start - b.start);
    return { ...(this.title === "" ? {} : { title: this.title }), voices, notes, duration: this.duration };
  }

  private all(statements: readonly Statement[]): void {
    for (const statement of statements) {
      if (this.stopped) return;
      this.one(statement);
    }
  }

  private one(statement: Statement): void {
    this.steps++;
    if (this.steps > mostSteps) {
      this.stop({ line: 1, column: 1, length: 1 }, "with its repeats and glides the tune has millions of steps");
      return;
    }
    switch (statement.kind) {
      case "tune":
        this.title = statement.title;
        break;
      case "voice":
        this.part = this.partOf(statement.name);
        break;
      case "tempo":
        (this.part ?? this.usual).beat = statement.beat;
        break;
      case "strength":
      case "level":
        (this.part ?? this.usual)[statement.kind] = statement.value;
        break;
      case "gap":
        (this.part ?? this.usual).gap = statement.value;
        break;
      case "at": {
        const part = this.partOf();
        part.clock = statement.value;
        part.last = [];
        this.duration = Math.max(this.duration, part.clock);
        break;
      }
      case "repeat":
        for (let i = 0; i < statement.times && !this.stopped; i++) this.all(statement.body);
        break;
      case "steps": {
        const { length } = statement;
        for (const step of statement.steps) {
          const part = this.partOf();
          this.step(part, { step, length: "beats" in length ? length.beats * part.beat : length.seconds });
        }
        if (this.duration > limits.duration)
          this.stop(statement.spot, `the tune lasts longer than ${limits.duration / 3600} hours`);
        if (this.made.length > limits.notes) this.stop(statement.spot, `the tune has more than ${limits.notes} notes`);
        break;
      }
    }
  }

  private step(part: Part, { step, length }: { step: Step; length: Second }): void {
    const from = part.clock;
    const to = from + length;
    this.steps++;
    if (step.kind === "rest") part.last = [];
    else if (step.kind === "strike") {
      part.last = step.sounds.map((sound) => this.strike(part, { sound, from, to }));
    } else this.hold(part, { step, from, to });
    part.clock = to;
    this.duration = Math.max(this.duration, to);
  }

  private strike(part: Part, { sound, from, to }: { sound: Sound; from: Second; to: Second }): Open {
    const [first, ...turns] = this.path(sound, { from, to });
    const note: Open = {
      voice: part.index,
      start: from,
      end: to,
      pitch: first?.to ?? sound.pitch,
      velocity: part.strength,
      level: part.level,
      sound: sound.sound,
      bends: turns,
      swells: [],
      gap: part.gap,
    };
    this.made.push(note);
    return note;
  }

  private hold(
    part: Part,
    { step, from, to }: { step: Extract<Step, { kind: "hold" }>; from: Second; to: Second },
  ): void {
    const [only, another] = part.last;
    if (only === undefined) {
      const expected = "`+` behind a sound; after a rest, `at` or at the beginning of a voice there is none to hold";
      this.refuse(step.spot, { rule: "tune-hold", what: "`+` has no sound to hold", expected });
      return;
    }
    if (step.sound !== undefined && (another !== undefined || only.sound === "noise")) {
      const expected = "`+` alone to hold a chord or noise; a pitch behind it only where one tone sounds";
      this.refuse(step.spot, { rule: "tune-hold", what: "`+` leads more than a single tone on", expected });
      return;
    }
    for (const note of part.last) {
      note.end = to;
      note.gap = part.gap;
      if (step.sound !== undefined) for (const turn of this.path(step.sound, { from, to })) note.bends.push(turn);
      if (part.level !== (note.swells[note.swells.length - 1]?.to ?? note.level))
        note.swells.push({ at: from, to: part.level });
    }
  }

  /** The pitch from each moment on; a glide moves through equal intervals in equal times. */
  private path({ pitch, to: goal = pitch }: Sound, { from, to }: { from: Second; to: Second }): readonly Turn[] {
    // A little less, so that no rounding of a frequency makes a step of its own.
    const cents = Math.abs(goal - pitch) * 100 - 1e-6;
    const count = Math.max(1, Math.min(Math.ceil(cents), Math.ceil((to - from) * 1000), mostGlideSteps));
    this.steps += count;
    return Array.from({ length: count }, (_, i) => ({
      at: from + ((to - from) * i) / count,
      to: goal === pitch ? pitch : pitch + ((goal - pitch) * (i + 0.5)) / count,
    }));
  }

  private partOf(name?: string): Part {
    if (name === undefined && this.part !== undefined) return this.part;
    const called = name ?? "voice 1";
    const known = this.parts.get(called);
    const part: Part = known ?? { ...this.usual, index: this.parts.size, clock: 0, last: [] };
    this.parts.set(called, part);
    if (name === undefined) this.part = part;
    return part;
  }

  private stop(spot: Spot, what: string): void {
    const expected = `a tune of at most ${limits.notes} notes and ${limits.duration / 3600} hours`;
    this.refuse(spot, { rule: "tune-too-long", what, expected });
  }

  private refuse(spot: Spot, mistake: { rule: string; what: string; expected: string }): void {
    this.mistakes.add(spot, mistake);
    this.stopped = this.stopped || mistake.rule === "tune-too-long" || this.mistakes.full;
  }
}

/** A gap takes at most half of the sound. */
function noteOf({ gap, end: full, ...note }: Open): Note {
  const end = full - Math.min(gap, (full - note.start) / 2);
  const within = (turns: readonly Turn[]) => turns.filter(({ at }) => at < end);
  return { ...note, end, bends: within(note.bends), swells: within(note.swells) };
}
