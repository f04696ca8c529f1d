/** Parts of a record that stand side by side: the later part's times go on where the earlier part's end. */
import { copyEach, type Times } from "./growing.ts";

/** Rows of a part that have a time; a shorter part ends in blank cells. */
function filled(times: Times): number {
  let length = times.length;
  while (length > 0 && Number.isNaN(times.at(length - 1))) length--;
  return length;
}

/** True where each part begins about one step after the end of the one before. */
export function runsOn(parts: readonly Times[]): boolean {
  return parts.every((part, n) => {
    const before = parts[n - 1];
    if (before === undefined) return true;
    const last = filled(before) - 1;
    const step = (before.at(last) - before.at(0)) / last;
    const off = part.at(0) - before.at(last) - step;
    return Math.abs(off) < 0.5 * step;
  });
}

/** One behind the other; blank ends stay, as no times, where another part follows. */
export function joinedTimes(parts: readonly Times[]): Times {
  const size = parts[0]?.length ?? 0;
  const last = parts.at(-1);
  const joined = {
    length: size * (parts.length - 1) + (last === undefined ? 0 : filled(last)),
    at: (row: number) => parts[Math.floor(row / size)]?.at(row % size) ?? Number.NaN,
  };
  return { ...joined, copy: (into, from) => copyEach(joined, into, from) };
}
