/** A tune as text → a song. The notation is described in docs/notation.md. */
import type { Song } from "../../../description/song.ts";
import { limits } from "../limits.ts";
import type { SongReading } from "../reading.ts";
import { Mistakes } from "./mistake.ts";
import { parse } from "./parse.ts";
import { Player } from "./player.ts";

/**
 * Reads a tune.
 *
 * @returns the song, or every mistake (at most 20) with line, column, what was expected and what to do. Never throws.
 */
export function readNotation(text: string): SongReading {
  const mistakes = new Mistakes();
  if (text.length > limits.bytes) {
    const what = `the text has ${text.length} characters`;
    mistakes.add(
      { line: 1, column: 1, length: 1 },
      { rule: "tune-too-long", what, expected: `at most ${limits.bytes}` },
    );
    return { findings: mistakes.findings() };
  }
  const statements = parse(text, mistakes);
  if (mistakes.findings().length > 0) return { findings: mistakes.findings() };
  const song: Song | undefined = new Player(mistakes).play(statements);
  const findings = mistakes.findings();
  return findings.length > 0 || song === undefined ? { findings } : { song, findings };
}
