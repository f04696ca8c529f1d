/** Waveforms of a burst on their way to a file or to standard output. */
import { burstPlot, burstPlotBeginning } from "../views/burst-plot.ts";
import { waveformCsv } from "../views/waveform-csv.ts";
import { type Io, UserError } from "./io.ts";
import type { WaveformOutput } from "./room-page.ts";

/** The name that stands for standard output. */
const standardOutput = "-";

/**
 * @returns undefined where none was asked for
 * @throws UserError both are to go to standard output, or one beside `--json`
 */
export function pictures(
  io: Io,
  { csv, svg, json = false }: { csv?: string; svg?: string; json?: boolean },
): WaveformOutput | undefined {
  if (csv === undefined && svg === undefined) return undefined;
  const printed = [csv, svg].filter((path) => path === standardOutput).length;
  if (printed + (json ? 1 : 0) > 1) {
    throw new UserError(
      "only one of --csv -, --svg - and --json can go to standard output; give the others a file name",
    );
  }
  return {
    aside: printed === 0,
    async send({ coil, study }) {
      const { waveforms } = study;
      if (waveforms === undefined)
        throw new UserError("no burst can be computed from this file, so there are no waveforms");
      const whole = { from: 0, to: waveforms.time.at(-1) ?? 0 };
      if (csv !== undefined) {
        const table = waveformCsv(waveforms, whole);
        await put(csv, table, table.slice(0, table.indexOf("\n")));
      }
      const trip = coil.feedback?.overcurrent;
      if (svg !== undefined)
        await put(
          svg,
          burstPlot({ name: coil.name, study, ...(trip === undefined ? {} : { overcurrent: trip }) }),
          burstPlotBeginning,
        );
    },
  };

  async function put(path: string, text: string, beginning: string): Promise<void> {
    if (path === standardOutput) {
      io.out(text);
      return;
    }
    await io.write(path, { text, beginning });
    io.err(`${path} written\n`);
  }
}
