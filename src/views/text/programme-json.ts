/** What `play --json` prints: figures, findings, what became of the pulses, and the schedule. */
import type { Figure } from "../../catalogue/figure.ts";
import type { Finding } from "../../catalogue/finding.ts";
import { reasons } from "../../programme/index.ts";
import type { ProgrammeStudy } from "../../workbench/programme-contract.ts";

const quantitiesOf = (figures: Iterable<Figure>) =>
  Object.fromEntries(
    [...figures].map(({ id, value, unit, low, high }) => [
      id,
      { value, unit, ...(low === undefined || high === undefined ? {} : { low, high }) },
    ]),
  );

/** Seconds to a nanosecond, all else in SI as it is; codes of reasons are indices into `reasons`. */
export function programmeJson({ programme, findings }: { programme?: ProgrammeStudy; findings: readonly Finding[] }) {
  if (programme === undefined) return { quantities: {}, findings };
  const { song, plan, figures, limits, limitsAssumed, history, voices, reasons: tally, fit, missing } = programme;
  const { schedule } = plan;
  const seconds = (values: Float64Array) => Array.from(values, (value) => Number(value.toFixed(9)));
  const numbers = (values: Float64Array) => Array.from(values, (value) => Number(value.toPrecision(6)));
  const { stretch, ...courses } = history;
  return {
    quantities: quantitiesOf(figures.values()),
    findings,
    song: { title: song.title ?? null, duration: song.duration, notes: song.notes.length },
    limits: limits ?? null,
    limitsAssumed,
    voices,
    tally,
    ...(fit
      ? {
          fit: {
            steps: fit.steps,
            before: { quantities: quantitiesOf(fit.before.figures.values()), tally: fit.before.reasons },
          },
        }
      : {}),
    missing,
    history: {
      stretch,
      ...Object.fromEntries(Object.entries(courses).map(([name, values]) => [name, numbers(values)])),
    },
    reasons,
    schedule: {
      note: Array.from(schedule.note),
      start: seconds(schedule.start),
      wantedStart: seconds(schedule.wantedStart),
      onTime: seconds(schedule.onTime),
      wantedOnTime: seconds(schedule.wantedOnTime),
      reason: Array.from(schedule.reason),
      mergedInto: Array.from(plan.into),
      duration: schedule.duration,
    },
  };
}
