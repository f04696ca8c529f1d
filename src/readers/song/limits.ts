/** What a song may hold. A file beyond these is refused or cut with a word, so that no file can hold the machine. */
export const limits = {
  /** Longest file [bytes]; the largest scores for a whole orchestra stay under a tenth of it. */
  bytes: 8 * 1024 * 1024,
  notes: 400_000,
  /** Steps of work on sounding notes: turns of pitch and loudness, pedals. */
  steps: 4_000_000,
  /** Longest song [s]: a day. */
  duration: 86_400,
  /** Length of a name, in characters. */
  name: 80,
} as const;
