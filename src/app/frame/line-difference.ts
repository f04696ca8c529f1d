/** Lines of two texts side by side, those that differ marked. */
export interface PairOfLines {
  readonly mine: string | undefined;
  readonly theirs: string | undefined;
  readonly same: boolean;
}

/** Longest common subsequence of lines; fine for files of some hundred lines. */
export function pairLines(mine: string, theirs: string): PairOfLines[] {
  const a = mine.split("\n");
  const b = theirs.split("\n");
  const width = b.length + 1;
  const length = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      const at = i * width + j;
      length[at] =
        a[i] === b[j] ? (length[at + width + 1] ?? 0) + 1 : Math.max(length[at + width] ?? 0, length[at + 1] ?? 0);
    }
  }
  const pairs: PairOfLines[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      pairs.push({ mine: a[i++], theirs: b[j++], same: true });
    } else if (
      j >= b.length ||
      (i < a.length && (length[(i + 1) * width + j] ?? 0) >= (length[i * width + j + 1] ?? 0))
    ) {
      pairs.push({ mine: a[i++], theirs: undefined, same: false });
    } else {
      pairs.push({ mine: undefined, theirs: b[j++], same: false });
    }
  }
  return pairs;
}
