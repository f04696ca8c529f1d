/** The nearest of a list of words: for suggestions after a slip of the pen. */

/**
 * Number of letters to change, leave out, put in or swap with their neighbour to turn `a` into `b` (optimal string alignment).
 * Texts are cut at 64 characters: longer ones are not slips of the pen.
 */
export function editDistance(a: string, b: string): number {
  const from = a.slice(0, 64);
  const to = b.slice(0, 64);
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const same = from[i - 1] === to[j - 1] ? 0 : 1;
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1])
        best = Math.min(best, (beforeLast[j - 2] ?? 0) + 1);
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length] ?? 0;
}

/** The word of `words` that `written` most resembles, or undefined where none is near: at most a third of the letters differ, case ignored. */
export function closestOf<W extends string>(written: string, words: readonly W[]): W | undefined {
  const folded = written.toLowerCase();
  let best: W | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const word of words) {
    const distance = editDistance(folded, word.toLowerCase());
    const bound = Math.max(1, Math.floor(Math.max(folded.length, word.length) / 3));
    if (distance <= bound && distance < bestDistance) {
      best = word;
      bestDistance = distance;
    }
  }
  return best;
}
