/** A Standard MIDI File → a song. */
import type { Note, Song } from "../../../description/song.ts";
import { limits } from "../limits.ts";
import type { SongReading } from "../reading.ts";
import { layOut } from "./chunks.ts";
import { EventList } from "./events.ts";
import { perform } from "./perform.ts";
import { readTrack, type TrackText } from "./track.ts";
import { counted, Troubles } from "./troubles.ts";
import { Voices } from "./voices.ts";

/**
 * Reads a Standard MIDI File of format 0, 1 or 2 whose header begins at `header`. What is broken is mended or left out, with a finding
 * that names the byte; never throws.
 */
export function readMidi(bytes: Uint8Array, { header }: { header: number }): SongReading {
  const troubles = new Troubles();
  const song = songOf(bytes, { header, troubles });
  return { findings: troubles.findings(), ...(song === undefined ? {} : { song }) };
}

function songOf(bytes: Uint8Array, { header, troubles }: { header: number; troubles: Troubles }): Song | undefined {
  const layout = layOut(bytes, { header, troubles });
  if (layout === undefined) return undefined;
  // The tracks of format 2 are patterns for one after the other, each with a tempo of its own.
  const turns = layout.format === 2 ? layout.tracks.map((track) => [track]) : [layout.tracks];
  const voices = new Voices();
  const texts: TrackText[] = [];
  const notes: Note[] = [];
  let duration = 0;
  for (const tracks of turns) {
    const events = new EventList();
    const first = texts.length;
    for (const track of tracks) texts.push(readTrack(bytes, { track, index: texts.length - first, events, troubles }));
    const played = perform(events, {
      division: layout.division,
      start: duration,
      troubles,
      voiceOf: (track, channel) => voices.of(first + track, channel),
      room: limits.notes - notes.length,
    });
    if (played === undefined) return undefined;
    for (const note of played.notes) notes.push(note);
    duration = played.end;
  }
  if (notes.length === 0) {
    troubles.add("song-without-notes", {
      byte: header,
      detail: `no notes in ${counted(layout.tracks.length, "track")}`,
    });
    return undefined;
  }
  const title = texts[0]?.name ?? "";
  return {
    ...(title === "" ? {} : { title }),
    voices: voices.named(texts.map(({ name }) => name)),
    notes,
    duration,
  };
}
