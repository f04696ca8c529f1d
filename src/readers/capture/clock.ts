/** Clock times in a column: `12:30:00.25`, with or without a date before it. */

const pattern = /^(?:(\S+?)[ T]\s*)?(\d{1,2}):(\d{2}):(\d{2})(?:[.,:](\d{1,12}))?\s*(?:Z|[+-]\d{2}:?\d{2})?$/;
const date = /^\d{1,4}[-./]\d{1,2}[-./]\d{1,4}$/;
const day = 86_400;

/** The date and the seconds of the day that a cell names; undefined where it is no clock time. */
export function clockTime(text: string): { readonly date: string; readonly seconds: number } | undefined {
  const match = pattern.exec(text);
  if (match === null) return undefined;
  const [, written = "", hours, minutes, seconds, part = "0"] = match;
  if (written !== "" && !date.test(written)) return undefined;
  return {
    date: written,
    seconds: Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds) + Number(part) / 10 ** part.length,
  };
}

/** Seconds since the first clock time. Records are short: another date is the next one, and a clock that goes back by half a day has passed midnight. */
export class Clock {
  private first: number | undefined;
  private date = "";
  private days = 0;
  private before = 0;

  /** NaN where the text is no clock time. */
  since(text: string): number {
    const time = clockTime(text);
    if (time === undefined) return Number.NaN;
    if (this.first === undefined) {
      this.first = time.seconds;
      this.date = time.date;
    } else if (time.date !== this.date || (time.date === "" && time.seconds < this.before - day / 2)) {
      this.days++;
      this.date = time.date;
    }
    this.before = time.seconds;
    return this.days * day + time.seconds - this.first;
  }
}
