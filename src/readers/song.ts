export { kindOf } from "./song/kind.ts";
export { type MidiFile, writeMidi } from "./song/midi/write.ts";
export { readNotation } from "./song/notation/read.ts";
export { writeNotation } from "./song/notation/write.ts";
export { readSong, type SongReading } from "./song/read.ts";
