/** A song for a coil: planned inside every limit, with figures and histories. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Figure, Figures } from "../catalogue/figure.ts";
import { quantities } from "../catalogue/quantities.ts";
import type { Coil } from "../description/coil.ts";
import type { Song } from "../description/song.ts";
import { type Load, type ProgrammeLimits, pitchOfNotes, planSong, type Shaping } from "../programme/index.ts";
import type { Second } from "../units/si.ts";
import type { BurstSetting } from "./burst-contract.ts";
import type { Solution } from "./contract.ts";
import type { ProgrammeOptions, ProgrammeStudy } from "./programme-contract.ts";
import { type CostStudy, pulseCosts } from "./programme-costs.ts";
import { programmeFigures } from "./programme-figures.ts";
import { fitProgramme } from "./programme-fit.ts";
import { historyOf, reasonsOf, voicesOf } from "./programme-history.ts";
import { busStore, limitsOf } from "./programme-limits.ts";

/** Of the loudest on-time: what the softest note gets, and what no pulse is shortened below. */
const softestShare = 0.3;
const leastShare = 0.15;
/** Budget of a moved pulse, as a change of its period [cent]. */
const usualShift = 50;

/**
 * Plans a song for a coil.
 *
 * Pure; the same song, coil and options give the same schedule. What each limit means is in `ProgrammeLimits`; policies are in docs/programme.md.
 *
 * @param solution  of the same coil
 * @param song      notes in order of their start
 * @returns a schedule whose every pulse keeps every limit; without an interrupter in the file it is empty, and `missing` says so
 * @throws OutOfDomain  notes out of order, a note that ends before it starts, a voice that is not in the song, or a number that is not finite
 */
export function planProgramme(
  coil: Coil,
  solution: Solution,
  song: Song,
  options: ProgrammeOptions = {},
): ProgrammeStudy {
  requireSong(song);
  const played = transposed(song, options.transpose ?? 0);
  const found = limitsOf(coil);
  if (found === undefined || coil.interrupter === undefined) return withoutLimits(played, missingFor(coil));
  const { limits, assumed } = found;
  const longest = options.onTime ?? coil.interrupter.onTime;
  const energies = energiesOf(coil, solution, { limits, longest }, options);
  const missing = [...missingFor(coil), ...(energies || !isComplete(coil) ? [] : [tooLong])];
  const shaping = shapingOf({ longest, limits, litFrom: energies?.litFrom ?? 0, options });
  const load: Load | undefined = energies && coil.supply && { costs: energies.costs, bus: busStore(coil.supply) };
  const parts = { limits, assumed, load, energies, missing };
  if (!options.fit) return studied({ ...parts, song: played, shaping });
  const before = studied({ ...parts, song: played, shaping });
  const fitted = fitProgramme({ song: played, limits, shaping, ...(load ? { load } : {}) });
  return {
    ...studied({ ...parts, song: fitted.song, shaping: fitted.shaping }),
    fit: { steps: fitted.steps, before: { figures: before.figures, reasons: before.reasons } },
  };
}

function studied({
  song,
  limits,
  assumed,
  shaping,
  load,
  energies,
  missing,
}: {
  song: Song;
  limits: ProgrammeLimits;
  assumed: boolean;
  shaping: Shaping;
  load: Load | undefined;
  energies: CostStudy | undefined;
  missing: ProgrammeStudy["missing"];
}): ProgrammeStudy {
  const plan = planSong(song, { limits, shaping, ...(load ? { load } : {}) });
  const pitch = pitchOfNotes(song, plan);
  return {
    song,
    plan,
    figures: inOrder(programmeFigures({ song, plan, pitch, limits, muted: shaping.muted, load, energies })),
    limits,
    limitsAssumed: assumed,
    shaping,
    history: historyOf(plan),
    voices: voicesOf(song, plan, pitch.pulses),
    reasons: reasonsOf(plan),
    cents: pitch.cents,
    highest: Math.min(limits.rate, 1 / (limits.gap + shaping.least)),
    ...(energies ? { energyError: energies.error } : {}),
    ...(energies?.litFrom === undefined ? {} : { litFrom: energies.litFrom }),
    ...(load ? { busVoltage: load.bus.voltage } : {}),
    missing,
  };
}

function shapingOf({
  longest,
  limits,
  litFrom,
  options,
}: {
  longest: Second;
  limits: ProgrammeLimits;
  /** A shorter pulse makes no spark: not even the softest note asks for one. */
  litFrom: Second;
  options: ProgrammeOptions;
}): Shaping {
  const most = Math.min(longest, limits.onTime);
  return {
    range: { longest: most, softest: Math.min(most, Math.max(softestShare * most, litFrom)) },
    least: leastShare * most,
    priorities: options.priorities ?? [],
    muted: new Set(options.muted ?? []),
    shift: options.shift ?? usualShift,
    seed: options.seed ?? 1,
    equalLoudness: options.equalLoudness ?? true,
  };
}

function energiesOf(
  coil: Coil,
  solution: Solution,
  { limits, longest }: { limits: ProgrammeLimits; longest: Second },
  { streamer, breakoutVoltage }: ProgrammeOptions,
): CostStudy | undefined {
  const setting: BurstSetting = {
    ...(streamer === undefined ? {} : { streamer }),
    ...(breakoutVoltage === undefined ? {} : { breakoutVoltage }),
  };
  return pulseCosts(coil, solution, { longest: tableEnd(limits.onTime, longest), highest: limits.rate, setting });
}

/** On-times over the longest pulse that a table still reaches to, for the on-time from which the top breaks out. */
const beyondLongest = 4;

/** The limit, halved until it is no more than a few times the longest pulse: a slider of the on-time finds the same table again. */
function tableEnd(limit: Second, longest: Second): Second {
  let end = limit;
  while (longest > 0 && end > beyondLongest * longest) end /= 2;
  return end;
}

/** Where a burst is known in all but its end: no rest of the file is missing. */
const tooLong = {
  path: "interrupter.onTime",
  says: "the longest burst has more half-cycles than are followed, or none: power, bus and temperatures are not known, and no limit of theirs is held",
};

const isComplete = ({ primary, tank, bridge, supply, feedback }: Coil): boolean =>
  Boolean(primary && tank && bridge && supply && feedback);

function missingFor(coil: Coil): ProgrammeStudy["missing"] {
  const { interrupter, tank, supply } = coil;
  const section = (path: string, there: unknown, says: string) => (there ? [] : [{ path, says }]);
  return [
    ...section("interrupter", interrupter, "without an interrupter there are no limits: no pulse is planned"),
    ...section(
      "interrupter.limits",
      !interrupter || interrupter.limits,
      "without limits nothing above the interrupter's setting is planned",
    ),
    ...section("supply.fuse", !supply || supply.fuse, "without a fuse the power from the mains is not limited"),
    ...section(
      "tank.bank.dissipation",
      !tank || tank.bank.dissipation !== undefined,
      "without the bank's dissipation its temperature is not looked at",
    ),
    ...section(
      "bridge",
      isComplete(coil),
      "without primary, tank, bridge, supply and feedback no energy of a burst is known: power, bus and temperatures are not looked at",
    ),
  ];
}

/** The song with every tone moved; noise has no pitch to move. */
function transposed(song: Song, semitones: number): Song {
  if (semitones === 0) return song;
  return {
    ...song,
    notes: song.notes.map((note) =>
      note.sound === "noise"
        ? note
        : {
            ...note,
            pitch: note.pitch + semitones,
            bends: note.bends.map(({ at, to }) => ({ at, to: to + semitones })),
          },
    ),
  };
}

function withoutLimits(song: Song, missing: ProgrammeStudy["missing"]): ProgrammeStudy {
  const limits = { onTime: 0, gap: 0, rate: 0, duty: 0 };
  const silent: Song = { ...song, notes: [] };
  const shaping = shapingOf({ longest: 0, limits, litFrom: 0, options: {} });
  const study = studied({
    song: silent,
    limits,
    assumed: false,
    shaping,
    load: undefined,
    energies: undefined,
    missing,
  });
  return { ...study, song, figures: new Map(), limits: undefined, shaping: undefined };
}

function requireSong({ notes, voices, duration }: Song): void {
  const where = "planProgramme";
  if (!(Number.isFinite(duration) && duration >= 0)) throw new OutOfDomain(where, `the song lasts ${duration} s`);
  let before = 0;
  for (const [n, { start, end, voice, pitch, velocity, level }] of notes.entries()) {
    const numbers = [start, end, pitch, velocity, level];
    if (!numbers.every(Number.isFinite)) throw new OutOfDomain(where, `note ${n} has a number that is not finite`);
    if (!(start >= before)) throw new OutOfDomain(where, `note ${n} at ${start} s comes after one at ${before} s`);
    if (!(end > start)) throw new OutOfDomain(where, `note ${n} ends at ${end} s, not after its start at ${start} s`);
    if (voices[voice] === undefined) throw new OutOfDomain(where, `note ${n} is of voice ${voice}, which is not there`);
    before = start;
  }
}

/** In the order of the catalogue. */
function inOrder(figures: readonly Figure[]): Figures {
  const made = new Map(figures.map((each) => [each.id, each]));
  return new Map([...quantities.keys()].flatMap((id) => (made.has(id) ? [[id, made.get(id)!] as const] : [])));
}
