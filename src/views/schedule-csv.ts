/** A schedule as a table for other programs: comma between values, point in numbers, seconds, a header line. */
import { fateOf, reasons } from "../programme/index.ts";
import type { ProgrammeStudy } from "../workbench/programme-contract.ts";

export const scheduleCsvHeader = "start_s,on_time_s,wanted_start_s,wanted_on_time_s,note,voice,fate,reason,merged_into";

/** One row per pulse that was wanted, in order of start; notes, voices and rows count from 1. To a nanosecond. */
export function scheduleCsv({ song, plan }: Pick<ProgrammeStudy, "song" | "plan">): string {
  const { schedule, into, asked } = plan;
  const lines = [scheduleCsvHeader];
  for (let n = 0; n < schedule.start.length; n++) {
    const note = asked[n] ?? 0;
    const carrier = into[n] ?? -1;
    lines.push(
      [
        (schedule.start[n] ?? 0).toFixed(9),
        (schedule.onTime[n] ?? 0).toFixed(9),
        (schedule.wantedStart[n] ?? 0).toFixed(9),
        (schedule.wantedOnTime[n] ?? 0).toFixed(9),
        note + 1,
        (song.notes[note]?.voice ?? 0) + 1,
        fateOf(plan, n),
        reasons[schedule.reason[n] ?? 0],
        carrier < 0 ? "" : carrier + 1,
      ].join(","),
    );
  }
  return `${lines.join("\n")}\n`;
}
