/** Times in another order than the rows: parts of a record that stand side by side, and rows whose last is the earliest. */
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

/** True where every time is before the one above it, or the same where they are rounded. */
export function fallThroughout(times: Times): boolean {
  if (times.rising === true || !(times.at(times.length - 1) < times.at(0))) return false;
  for (let row = 1; row < times.length; row++) if (!(times.at(row) <= times.at(row - 1))) return false;
  return true;
}

export function backwards(times: Times): Times {
  const turned = { length: times.length, at: (row: number) => times.at(times.length - 1 - row) };
  return { ...turned, copy: (into, from) => copyEach(turned, into, from) };
}
