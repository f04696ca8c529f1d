/** Figures of a planned programme. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Song } from "../description/song.ts";
import {
  type Course,
  costAt,
  dutyAt,
  fateOf,
  greatest,
  type Load,
  meanAt,
  type NotePitch,
  type Plan,
  type ProgrammeLimits,
  reasons,
} from "../programme/index.ts";
import type { Joule, Kelvin, Ratio } from "../units/si.ts";
import type { CostStudy } from "./programme-costs.ts";

const celsiusZero = 273.15;
const mutedCode = reasons.indexOf("muted");
const song = ["interrupter.limits"];

export interface PlannedSong {
  readonly song: Song;
  readonly plan: Plan;
  readonly pitch: NotePitch;
  readonly limits: ProgrammeLimits;
  readonly muted: ReadonlySet<number>;
  readonly load: Load | undefined;
  readonly energies: CostStudy | undefined;
}

export function programmeFigures(planned: PlannedSong): Figure[] {
  return [
    ...noteFigures(planned),
    ...pulseFigures(planned),
    ...courseFigures(planned),
    ...(planned.load && planned.energies ? energyFigures(planned, planned.load, planned.energies) : []),
  ];
}

const plan = { from: song, source: "programme-plan" } as const;

function noteFigures({ song: { notes }, plan: { lowered }, pitch, muted }: PlannedSong): Figure[] {
  let silent = 0;
  notes.forEach(({ voice }, note) => {
    if (!muted.has(voice) && pitch.pulses[note] === 0) silent++;
  });
  let worst: number | undefined;
  let lowest = 0;
  pitch.cents.forEach((cents, note) => {
    if (!Number.isNaN(cents)) worst = Math.max(worst ?? 0, Math.abs(cents));
    if (pitch.pulses[note]! > 0 && lowered[note]! > 0) lowest++;
  });
  return [
    figure("programme.notes", notes.length, plan),
    figure("programme.notesSilent", silent, plan),
    figure("programme.notesLowered", lowest, plan),
    ...(worst === undefined
      ? []
      : [
          figure("programme.pitchError", worst, {
            from: song,
            source: "iso-16",
            ...(lowest > 0 ? { note: "notes that had to be lowered count with 1200 cent an octave" } : {}),
          }),
        ]),
  ];
}

function pulseFigures({ plan: made }: PlannedSong): Figure[] {
  const { schedule, into } = made;
  const counts = { sent: 0, trimmed: 0, merged: 0, dropped: 0, muted: 0 };
  let shift = 0;
  for (let at = 0; at < schedule.start.length; at++) {
    const fate = fateOf(made, at);
    if (fate === "dropped" && schedule.reason[at] === mutedCode) counts.muted++;
    else counts[fate]++;
    if (fate === "dropped") continue;
    const carrier = fate === "merged" ? into[at]! : at;
    shift = Math.max(shift, Math.abs(schedule.start[carrier]! - schedule.wantedStart[at]!));
  }
  return [
    figure("programme.wanted", schedule.start.length, plan),
    figure("programme.pulses", counts.sent + counts.trimmed, plan),
    figure("programme.trimmed", counts.trimmed, plan),
    figure("programme.merged", counts.merged, plan),
    figure("programme.dropped", counts.dropped, plan),
    figure("programme.largestShift", shift, plan),
  ];
}

function courseFigures({ plan: { course, schedule } }: PlannedSong): Figure[] {
  const { start, onTime } = course;
  let sum = 0;
  for (const each of onTime) sum += each;
  return [
    figure("programme.longestOnTime", greatest(onTime), plan),
    figure("programme.peakRate", greatest(meanAt(start, 1, 1)), plan),
    figure("programme.peakDuty", greatest(dutyAt(course, 20e-3)), plan),
    figure("programme.peakDutySecond", greatest(dutyAt(course, 1)), plan),
    ...(schedule.duration > 0 ? [figure("programme.meanDuty", sum / schedule.duration, plan)] : []),
  ];
}

function energyFigures({ plan: { course, schedule }, limits }: PlannedSong, load: Load, energies: CostStudy): Figure[] {
  const source = "programme-energies";
  const from = ["programme.pulses", "burst.energyDrawn", "burst.energyReturned", "bus.voltage"];
  const drawn = total(course.drawn);
  const share = drawn > 0 ? leastOf(course, load, energies) / drawn : 1;
  const error = energies.error;
  const ends = (value: number) => ({ low: value * share * (1 - Math.min(1, error)), high: value * (1 + error) });
  const power = greatest(meanAt(course.start, course.drawn, 1));
  const full = 0.5 * load.bus.capacitance * load.bus.voltage ** 2;
  const worst = greatest(meanAt(course.start, course.drawn, load.bus.refill)) * load.bus.refill;
  const loss = total(course.loss);
  const note =
    "the upper of what trains at a slow rate, at the setting and at the limit draw; the lower end is the least of them";
  return [
    ...(schedule.duration > 0
      ? [
          figure("programme.meanPower", drawn / schedule.duration, {
            from,
            source,
            note,
            ...ends(drawn / schedule.duration),
          }),
        ]
      : []),
    figure("programme.peakPower", power, { from, source, note, ...ends(power) }),
    figure("programme.energy", drawn, { from, source, note, ...ends(drawn) }),
    figure("programme.energyError", error, { from: ["burst.energyDrawn", "switch.lossPerBurst"], source }),
    ...darkFigures(course, energies),
    figure("programme.lowestBus", load.bus.voltage * Math.sqrt(Math.max(0, 1 - worst / full)), {
      from: ["programme.pulses", "supply.capacitors", "supply.mains"],
      source,
      note: "as if the mains refilled the bus just before the run and just after it",
    }),
    figure("programme.switchEnergy", loss, {
      from: ["programme.pulses", "switch.lossPerBurst"],
      source,
      low: loss * (1 - Math.min(1, error)),
      high: loss * (1 + error),
    }),
    ...heatFigure("programme.junctionPeak", {
      temperatures: course.junction,
      ambient: limits.junction?.ambient,
      error,
      from: ["programme.switchEnergy", "bridge.switch.thermal", "bridge.heatsink"],
      note: "with a heatsink of one minute: common practice, no source; a larger one is cooler in a song and as hot after an hour",
    }),
    ...heatFigure("programme.capacitorPeak", {
      temperatures: course.capacitor,
      ambient: limits.capacitor?.ambient,
      error,
      from: ["programme.pulses", "bank.heatEach", "site.air.temperature"],
      note: "12 K/W and two minutes for each capacitor: common practice, no source; to a factor of two",
    }),
  ];
}

/** Pulses that make no spark. */
function darkFigures({ onTime }: Course, { litFrom }: CostStudy): Figure[] {
  const parts = { from: ["burst.breakoutTime", "topload.breakoutVoltage"], source: "programme-energies" } as const;
  let dark = 0;
  for (const each of onTime) if (litFrom === undefined || each < litFrom * (1 - 1e-9)) dark++;
  return [
    ...(litFrom === undefined ? [] : [figure("programme.breakoutOnTime", litFrom, parts)]),
    figure("programme.unlit", dark, {
      ...parts,
      note: "for a smooth top at the full bus; a point breaks out sooner, and then they do",
    }),
  ];
}

function heatFigure(
  id: string,
  {
    temperatures,
    ambient,
    error,
    from,
    note,
  }: {
    temperatures: Float64Array;
    ambient: Kelvin | undefined;
    error: Ratio;
    from: readonly string[];
    note: string;
  },
): Figure[] {
  if (ambient === undefined) return [];
  const most = greatest(temperatures, ambient);
  const doubt = (most - ambient) * Math.min(1, error);
  const value = most - celsiusZero;
  return [figure(id, value, { from, source: "programme-heat", note, low: value - doubt, high: value + doubt })];
}

function total(values: Float64Array): Joule {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

/** What the same pulses would draw at the repetition rate at which they draw least. */
function leastOf({ onTime, bus }: Course, load: Load, { least }: CostStudy): Joule {
  let sum = 0;
  for (let at = 0; at < onTime.length; at++) sum += costAt(least.drawn, onTime[at]!, bus[at]! / load.bus.voltage);
  return sum;
}
