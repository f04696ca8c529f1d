/** What can be wrong with a MIDI file, in words, and a list that tells each kind once with its count and its first byte. */
import type { Finding, Place, Severity } from "../../../catalogue/finding.ts";
import { limits } from "../limits.ts";

interface Words {
  readonly severity: Severity;
  /** One sentence; `count` is how often it was met, `detail` what was found the first time. */
  readonly what: (count: number, detail: string) => string;
  readonly expected: string;
  readonly remedies: readonly string[];
}

const saveAgain = "open the file in the program that made it and save it again";

/** `1 track`, `3 tracks`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

const kinds = {
  "not-a-song": {
    severity: "stop",
    what: (_, detail) => detail,
    expected: "a Standard MIDI File, which begins with `MThd`, or a tune as text, whose first line begins with `tune`",
    remedies: ["choose a file that ends in .mid, .midi, .kar, .rmi or .tune"],
  },
  "song-too-big": {
    severity: "stop",
    what: (_, detail) => detail,
    expected: `a song of at most ${limits.bytes / 1048576} MiB with at most ${limits.notes} notes`,
    remedies: ["keep fewer tracks, or a part of the song"],
  },
  "song-header": {
    severity: "stop",
    what: (_, detail) => detail,
    expected: "a header of 6 bytes: format, number of tracks, and a division that gives the length of a tick",
    remedies: [saveAgain],
  },
  "song-without-notes": {
    severity: "stop",
    what: (_, detail) => detail,
    expected: "at least one note",
    remedies: ["choose another file: there is nothing to play in this one"],
  },
  "song-before-header": {
    severity: "look",
    what: (_, detail) => detail,
    expected: "`MThd` at byte 0; what stands before it was passed over",
    remedies: [],
  },
  "song-header-length": {
    severity: "look",
    what: (_, detail) => detail,
    expected: "6 bytes, behind which the first track begins; it was found all the same",
    remedies: [],
  },
  "song-format": {
    severity: "look",
    what: (_, detail) => detail,
    expected: "format 0 with one track, 1 with tracks that sound together, or 2 with tracks one after the other",
    remedies: [saveAgain],
  },
  "song-track-count": {
    severity: "look",
    what: (_, detail) => detail,
    expected: "as many tracks as the header announces; those that are there were read",
    remedies: ["compare with another copy of the file: a part may be missing"],
  },
  "song-chunk-length": {
    severity: "look",
    what: (count, detail) => `${detail}${count > 1 ? `, and ${counted(count - 1, "other chunk")} like it` : ""}`,
    expected: "chunks as long as they announce; the track was read to where its events or the file end",
    remedies: [saveAgain],
  },
  "song-between-chunks": {
    severity: "look",
    what: (count, detail) => `${detail}${count > 1 ? `, and so in ${counted(count - 1, "other place")}` : ""}`,
    expected: "one chunk right after the other; what stands between them was passed over",
    remedies: [],
  },
  "song-track-broken": {
    severity: "fix",
    what: (count, detail) => `${detail}${count > 1 ? `, and ${counted(count - 1, "other track")} in a like way` : ""}`,
    expected: "whole events up to the end of the track; the rest of the track was left out, so that no note is made up",
    remedies: [saveAgain, "compare with another copy of the file"],
  },
  "song-track-open": {
    severity: "look",
    what: (count) => `${counted(count, "track")} stop${count === 1 ? "s" : ""} without an end of track`,
    expected: "an end-of-track event (FF 2F 00) at the end of each track",
    remedies: ["compare with another copy of the file: a part may be missing"],
  },
  "song-after-end": {
    severity: "look",
    what: (count) => `${counted(count, "track goes", "tracks go")} on after the end of track`,
    expected: "nothing after the end-of-track event (FF 2F 00); it was passed over",
    remedies: [],
  },
  "song-running-status": {
    severity: "look",
    what: (count) =>
      `${counted(count, "event stands", "events stand")} without a status byte after a meta or exclusive event`,
    expected: "a status byte there; the one before it was taken",
    remedies: [],
  },
  "song-system-event": {
    severity: "look",
    what: (count, detail) => `${counted(count, "system event")} that no file may hold, the first ${detail}`,
    expected: "channel, exclusive and meta events only; they were passed over",
    remedies: [],
  },
  "song-tempo": {
    severity: "look",
    what: (count, detail) => `${counted(count, "tempo event")} cannot be used, the first ${detail}`,
    expected: "3 bytes with the microseconds of a quarter note, more than 0; the tempo before it was kept",
    remedies: [],
  },
  "song-note-open": {
    severity: "look",
    what: (count) => `${counted(count, "note is", "notes are")} never let go`,
    expected: "a note-off for every note-on; they were ended at the end of their track",
    remedies: [],
  },
  "song-note-without-length": {
    severity: "look",
    what: (count) =>
      `${counted(count, "note ends", "notes end")} at the tick where ${count === 1 ? "it begins" : "they begin"}`,
    expected: "notes with a length; they were made one tick long",
    remedies: [],
  },
  "song-too-long": {
    severity: "fix",
    what: (_, detail) => detail,
    expected: `a song of at most ${limits.duration / 3600} hours; what comes later was left out`,
    remedies: ["look for a pause or a tempo that is far too long"],
  },
} as const satisfies Record<string, Words>;

export type TroubleKind = keyof typeof kinds;

interface Met {
  count: number;
  readonly byte: number;
  readonly detail: string;
}

export class Troubles {
  private readonly met = new Map<TroubleKind, Met>();

  /** @param byte offset from the start of the file; `detail` is kept from the first of a kind */
  add(kind: TroubleKind, { byte, detail = "" }: { byte: number; detail?: string }): void {
    const known = this.met.get(kind);
    if (known === undefined) this.met.set(kind, { count: 1, byte, detail });
    else known.count++;
  }

  /** In order of their bytes. */
  findings(): readonly Finding[] {
    return [...this.met].sort(([, a], [, b]) => a.byte - b.byte).map(([kind, met]) => findingOf(kind, met));
  }
}

function findingOf(kind: TroubleKind, { count, byte, detail }: Met): Finding {
  const { severity, what, expected, remedies }: Words = kinds[kind];
  const place: Place = { path: "song", line: 1, column: byte + 1, length: 1, byte };
  return {
    rule: kind,
    severity,
    path: "song",
    place,
    what: `${what(count, detail)} (${count > 1 ? "first at " : ""}byte ${byte})`,
    expected,
    evidence: [],
    remedies: remedies.map((says) => ({ says, edits: [] })),
  };
}
