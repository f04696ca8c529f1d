import { describe, expect, it } from "vitest";
import type { Note, Song } from "../../../src/description/song.ts";
import { readSong } from "../../../src/readers/song.ts";
import reference from "../../reference/midi.json" with { type: "json" };
import { ascii, chunk, endOfTrack, long, smf, tempo, variable, word } from "./smf.ts";

function read(bytes: Uint8Array): Song {
  const { song, findings } = readSong(bytes, { fileName: "hand.mid" });
  expect(findings).toEqual([]);
  if (song === undefined) throw new Error("no song");
  return song;
}

/** One track at 480 ticks a quarter note and 120 quarter notes a minute: 960 ticks a second. */
const notesOf = (...events: readonly (readonly number[])[]): readonly Note[] =>
  read(smf({ tracks: [events.flat()] })).notes;
const control = (number: number, value: number): number[] => [0xb0, number, value];
const bend = (position: number): number[] => [0xe0, position & 0x7f, position >> 7];
/** After `ticks`. */
const later = (ticks: number, event: readonly number[]): number[] => [...variable(ticks), ...event];
const on = (key: number, velocity = 100): number[] => [0x90, key, velocity];
const off = (key: number): number[] => [0x80, key, 64];

describe("time", () => {
  // published: tempo over division in exact decimal arithmetic (test/reference/midi.json, from the Standard MIDI File)
  const maps = reference.entries.filter(({ quantity }) => quantity === "midi.tickTime");
  it.each(maps)("a tempo map of $inputs.tempoEvents.length changes", ({ inputs, value }) => {
    const { division, tempoEvents, tick } = inputs as {
      division: number;
      tempoEvents: [number, number][];
      tick: number;
    };
    let last = 0;
    const map = tempoEvents.flatMap(([at, microseconds]) => {
      const bytes = later(at - last, tempo(microseconds));
      last = at;
      return bytes;
    });
    const track = [...later(tick, on(69)), ...later(division, off(69))];
    const { notes } = read(smf({ format: 1, division, tracks: [map, track] }));
    expect(notes[0]?.start).toBeCloseTo(Number(value), 12);
  });

  // published: the time-code division (test/reference/midi.json); a tempo event does not touch it
  const codes = reference.entries.filter(({ quantity }) => quantity === "midi.tickTimeSmpte");
  it.each(codes)("a time code of $inputs.framesPerSecond frames", ({ inputs, value }) => {
    const { framesPerSecond, ticksPerFrame, tick } = inputs as Record<string, number>;
    const division = ((256 - (framesPerSecond ?? 0)) << 8) | (ticksPerFrame ?? 0);
    const { notes } = read(
      smf({ division, tracks: [[...later(0, tempo(123456)), ...later(tick ?? 0, on(69)), ...later(9, off(69))]] }),
    );
    expect(notes[0]?.start).toBeCloseTo(Number(value), 12);
  });

  // law: code 29 is 30 drop frame, 30000/1001 frames a second
  it("drop frames last 1001/30000 s", () => {
    const { notes } = read(
      smf({ division: ((256 - 29) << 8) | 2, tracks: [[...later(2, on(69)), ...later(2, off(69))]] }),
    );
    expect(notes[0]?.start).toBeCloseTo(1001 / 30000, 14);
  });

  // published: the specification's list of variable-length numbers (test/reference/midi.json)
  it("delta times of one to four bytes", () => {
    for (const { inputs, value } of reference.entries.filter(({ quantity }) => quantity === "midi.variableLength")) {
      const ticks = Number(Object.values(inputs)[0]);
      const bytes = Uint8Array.from([
        ...chunk("MThd", [0, 0, 0, 1, ...word(25_000)]),
        ...chunk("MTrk", [...(value as number[]), 0x90, 69, 100, 1, 0x80, 69, 0, ...endOfTrack]),
      ]);
      expect(read(bytes).notes[0]?.start).toBeCloseTo(ticks / 50_000, 6);
    }
  });

  // law: format 2 plays its tracks one after the other, each with its own tempo
  it("format 2 is a sequence", () => {
    const track = [...later(0, tempo(1_000_000)), ...later(0, on(60)), ...later(480, off(60))];
    const { notes, duration, voices } = read(
      smf({ format: 2, tracks: [track, [...later(0, on(62)), ...later(480, off(62))]] }),
    );
    expect(notes.map(({ start, end, pitch }) => [start, end, pitch])).toEqual([
      [0, 1, 60],
      [1, 1.5, 62],
    ]);
    expect(duration).toBe(1.5);
    expect(voices.map(({ name }) => name)).toEqual(["track 1, channel 1", "track 2, channel 1"]);
  });

  it("the song lasts to the end of its longest track", () => {
    const { duration } = read(
      smf({ tracks: [[...later(0, on(60)), ...later(96, off(60)), ...later(9600, control(10, 64))]] }),
    );
    expect(duration).toBeCloseTo(10.1, 12);
  });
});

// law: what the MIDI 1.0 specification says each message does, on files small enough to follow by hand
describe("notes", () => {
  it("running status, and velocity 0 as note-off", () => {
    const [first, second] = notesOf(later(0, on(60, 127)), later(960, [60, 0]), later(0, [64, 1]), later(480, [64, 0]));
    expect(first).toMatchObject({ start: 0, end: 1, pitch: 60, velocity: 1, sound: "tone", bends: [], swells: [] });
    expect(second).toMatchObject({ start: 1, end: 1.5, pitch: 64, velocity: 1 / 127 });
  });

  it("of one key twice: the older one ends first", () => {
    const ends = notesOf(later(0, on(60)), later(96, on(60)), later(96, off(60)), later(96, off(60))).map(
      ({ end }) => end,
    );
    expect(ends).toEqual([0.2, expect.closeTo(0.3, 12)]);
  });

  it("of one key in two tracks do not end each other", () => {
    const long_ = [...later(0, on(60)), ...later(960, off(60))];
    const short = [...later(96, on(60)), ...later(96, off(60))];
    const ends = read(smf({ format: 1, tracks: [long_, short] })).notes.map(({ end }) => end);
    expect(ends).toEqual([1, expect.closeTo(0.2, 12)]);
  });

  it("on channel 10 are noise, without bend and without pedal", () => {
    const [drum] = notesOf(
      later(0, [0xe9, 0, 127]),
      later(0, [0xb9, 64, 127]),
      later(0, [0x99, 36, 90]),
      later(96, [0x89, 36, 0]),
      later(96, [0xe9, 0, 0]),
    );
    expect(drum).toMatchObject({ sound: "noise", pitch: 36, bends: [] });
    expect(drum?.end).toBeCloseTo(0.1, 12);
  });

  it("keep the port that their track names apart", () => {
    const track = (port: number) => [0, 0xff, 0x21, 1, port, ...later(0, on(60)), ...later(96, off(60))];
    const bent = [...track(0), ...later(0, bend(0))];
    const { voices } = read(smf({ format: 1, tracks: [bent, track(1)] }));
    expect(voices).toEqual([
      { name: "track 1, channel 1", channel: 0 },
      { name: "track 2, channel 1 of port 2", channel: 0 },
    ]);
  });
});

describe("pedals and modes", () => {
  const endsOf = (...events: readonly (readonly number[])[]): readonly number[] =>
    notesOf(...events).map(({ end }) => end);

  it("the sustain pedal holds from 64 and lets go below", () => {
    const events = (value: number) => [
      later(0, control(64, value)),
      later(0, on(60)),
      later(96, off(60)),
      later(864, control(64, 63)),
    ];
    expect(endsOf(...events(64))).toEqual([1]);
    expect(endsOf(...events(63))).toEqual([0.1]);
  });

  it("a key struck again ends the note that the pedal holds", () => {
    const ends = endsOf(
      later(0, control(64, 127)),
      later(0, on(60)),
      later(96, off(60)),
      later(384, on(60)),
      later(480, off(60)),
      later(0, control(64, 0)),
    );
    expect(ends).toEqual([0.5, 1]);
  });

  it("the sostenuto pedal holds what was down when it was pressed, and nothing after", () => {
    const ends = endsOf(
      later(0, on(60)),
      later(96, control(66, 127)),
      later(0, on(64)),
      later(96, off(60)),
      later(0, off(64)),
      later(768, control(66, 0)),
    );
    expect(ends).toEqual([1, 0.2]);
  });

  it("what both pedals hold sounds until both are up", () => {
    const held = [later(0, control(64, 127)), later(0, on(60)), later(0, control(66, 127)), later(96, off(60))];
    expect(endsOf(...held, later(384, control(64, 0)), later(480, control(66, 0)))).toEqual([1]);
    expect(endsOf(...held, later(384, control(66, 0)), later(480, control(64, 0)))).toEqual([1]);
  });

  it("all notes off lifts the keys, and the pedal still holds", () => {
    const tail = [later(480, control(123, 0)), later(480, control(64, 0))];
    expect(endsOf(later(0, control(64, 127)), later(0, on(60)), ...tail)).toEqual([1]);
    expect(endsOf(later(0, on(60)), ...tail)).toEqual([0.5]);
  });

  it("all sound off ends what the pedal holds", () => {
    expect(
      endsOf(later(0, control(64, 127)), later(0, on(60)), later(480, control(120, 0)), later(480, off(60))),
    ).toEqual([0.5]);
  });

  it("a note-off after all notes off does not end the next note of that key", () => {
    expect(endsOf(later(0, on(60)), later(96, control(123, 0)), later(0, on(60)), later(864, off(60)))).toEqual([
      0.1, 1,
    ]);
  });

  it("reset all controllers: bend, expression and pedals, not volume and bend range", () => {
    const [note] = notesOf(
      ...[control(101, 0), control(100, 0), control(6, 12), control(7, 127), control(11, 64), bend(0)].map((e) =>
        later(0, e),
      ),
      later(0, on(60)),
      later(480, control(121, 0)),
      later(0, bend(16383)),
      later(480, off(60)),
    );
    expect(note?.pitch).toBe(48);
    expect(note?.level).toBeCloseTo(64 / 127, 12);
    expect(note?.swells).toEqual([{ at: 0.5, to: 1 }]);
    expect(note?.bends).toEqual([{ at: 0.5, to: expect.closeTo(60 + (12 * 8191) / 8192, 12) }]);
  });

  it("General MIDI on sets everything back and ends what sounds", () => {
    const [first, second] = notesOf(
      later(0, control(7, 1)),
      later(0, on(60)),
      later(480, [0xf0, 5, 0x7e, 0x7f, 9, 1, 0xf7]),
      later(0, on(62)),
      later(480, off(62)),
    );
    expect(first?.end).toBe(0.5);
    expect(second?.level).toBeCloseTo(100 / 127, 12);
  });
});

describe("pitch", () => {
  const pitchAfter = (...settings: readonly (readonly number[])[]): number =>
    notesOf(...settings.map((event) => later(0, event)), later(0, on(69)), later(96, off(69)))[0]?.pitch ?? 0;
  const parameter = (number: number, coarse: number, fine?: number): (readonly number[])[] => [
    control(101, 0),
    control(100, number),
    control(6, coarse),
    ...(fine === undefined ? [] : [control(38, fine)]),
  ];

  // published: MIDI 1.0, pitch bend change and registered parameters 0 to 2 (from memory of the specification)
  it.each([
    ["rests in the middle", [bend(8192)], 69],
    ["bends two semitones without a range", [bend(0)], 67],
    ["bends up to a step of 8192 below two", [bend(16383)], 69 + (2 * 8191) / 8192],
    ["bends twelve where the range says so", [...parameter(0, 12), bend(4096)], 63],
    ["takes the hundredths of the range", [...parameter(0, 1, 50), bend(0)], 67.5],
    ["is tuned fine", parameter(1, 96, 0), 69.5],
    ["is tuned coarse", parameter(2, 52), 57],
    ["is not tuned by a maker's own parameter", [control(99, 0), control(98, 2), control(6, 52)], 69],
    ["is not tuned after the null parameter", [control(101, 127), control(100, 127), control(6, 52)], 69],
  ] as const)("%s", (_, settings, pitch) => {
    expect(pitchAfter(...settings)).toBeCloseTo(pitch, 12);
  });

  it("follows a bend while the note sounds, and after its key is up", () => {
    const [note] = notesOf(
      later(0, control(64, 127)),
      later(0, on(69)),
      later(96, bend(0)),
      later(96, off(69)),
      later(96, bend(8192)),
      later(96, control(64, 0)),
    );
    expect(note?.bends).toEqual([
      { at: 0.1, to: 67 },
      { at: expect.closeTo(0.3, 12), to: 69 },
    ]);
  });

  it("settings at the moment of the note are its start, also from another track", () => {
    const settings = [...later(0, bend(0)), ...later(0, control(7, 127))];
    const { notes } = read(smf({ format: 1, tracks: [[...later(0, on(69)), ...later(96, off(69))], settings] }));
    expect(notes[0]).toMatchObject({ pitch: 67, level: 1, bends: [], swells: [] });
  });
});

describe("loudness", () => {
  // law: the product of the two settings, over 127 each; 100 and 127 where none is given
  it("follows volume and expression", () => {
    const [note] = notesOf(
      later(0, on(69)),
      later(96, control(11, 64)),
      later(96, control(7, 50)),
      later(96, control(7, 50)),
      later(0, off(69)),
    );
    expect(note?.level).toBeCloseTo(100 / 127, 12);
    expect(note?.swells.map(({ to }) => to)).toEqual([(100 / 127) * (64 / 127), (50 / 127) * (64 / 127)]);
  });
});

describe("wrappers and names", () => {
  const tune = [...later(0, on(69)), ...later(96, off(69))];
  const bare = smf({ tracks: [[0, 0xff, 3, 4, ...ascii("Lamp"), ...tune]] });

  it("takes title and voice from the track's name, and from the file where there is none", () => {
    expect(read(bare)).toMatchObject({ title: "Lamp", voices: [{ name: "Lamp", channel: 0 }] });
    expect(readSong(smf({ tracks: [tune] }), { fileName: "music/late night.mid" }).song?.title).toBe("late night");
  });

  it("reads names in UTF-8 or the Western code page, without control characters", () => {
    const named = (bytes: number[]) => read(smf({ tracks: [[0, 0xff, 3, bytes.length, ...bytes, ...tune]] })).title;
    expect(named([...new TextEncoder().encode("Glühwürmchen")])).toBe("Glühwürmchen");
    expect(named([0x47, 0x6c, 0xfc, 0x68])).toBe("Glüh");
    expect(named([0x41, 10, 0, 27, 0x42])).toBe("A B");
  });

  it("looks into a RIFF wrapper and leaves what follows the song", () => {
    const little = (value: number): number[] => long(value).reverse();
    const data = [...ascii("data"), ...little(bare.length), ...bare];
    const extra = [...ascii("LIST"), ...little(12), ...ascii("INFOMTrk"), 0, 0, 0, 4];
    const wrapped = [...ascii("RIFF"), ...little(4 + data.length + extra.length), ...ascii("RMID"), ...data, ...extra];
    expect(read(Uint8Array.from(wrapped))).toEqual(read(bare));
  });

  it("passes over foreign chunks", () => {
    const at = 14;
    const foreign = chunk("XFIH", [1, 2, 3, ...ascii("MTrk")]);
    expect(read(Uint8Array.from([...bare.subarray(0, at), ...foreign, ...bare.subarray(at), ...foreign]))).toEqual(
      read(bare),
    );
  });

  it("reads a longer header as the specification asks", () => {
    const longer = [...ascii("MThd"), ...long(8), ...bare.subarray(8, 14), 0, 0, ...bare.subarray(14)];
    expect(read(Uint8Array.from(longer))).toEqual(read(bare));
  });
});
