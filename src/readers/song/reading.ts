/** What reading a song gives back. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Song } from "../../description/song.ts";

export interface SongReading {
  /** Absent where a finding of severity `stop` says why. */
  readonly song?: Song;
  /** In order of place: what stopped the reading, what was mended, what was left out. */
  readonly findings: readonly Finding[];
}
