/** A hit and a miss for every rule about a programme, on the quiet driver with figures and tallies that stand in. */
import { beforeAll, describe, expect, it } from "vitest";
import { figure } from "../../src/catalogue/figure.ts";
import { quantities, sources } from "../../src/catalogue/index.ts";
import { assessProgramme, programmeRules, rules } from "../../src/findings/index.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import type { CoilFile, Solution } from "../../src/workbench/contract.ts";
import { planProgramme } from "../../src/workbench/programme.ts";
import type { ProgrammeStudy, ReasonTally } from "../../src/workbench/programme-contract.ts";
import { solve } from "../../src/workbench/solve.ts";
import { songOf, tone } from "../programme/songs.ts";
import { quietDriver } from "./quiet-driver.ts";

let file: CoilFile;
let solution: Solution;
let quiet: ProgrammeStudy;
beforeAll(() => {
  file = readCoil(quietDriver);
  solution = solve(file.coil!, { brief: true });
  quiet = planProgramme(file.coil!, solution, songOf([tone({ start: 0, end: 2, pitch: 43 })]));
});

interface Change {
  readonly figures?: Readonly<Record<string, number>>;
  readonly reasons?: Partial<ReasonTally>;
  readonly study?: Partial<ProgrammeStudy>;
}
interface Case {
  readonly hit: Change;
  readonly miss: Change;
  readonly severity: "fix" | "look";
  readonly path: string;
  readonly names: string;
}

const dropped = (count: number) => ({ trimmed: 0, dropped: count });
const trimmed = (count: number) => ({ trimmed: count, dropped: 0 });

const cases: Readonly<Record<string, Case>> = {
  "programme-bus-sags": {
    hit: { figures: { "programme.lowestBus": 270 } },
    miss: { figures: { "programme.lowestBus": 280 } },
    severity: "look",
    path: "supply.capacitors",
    names: "270 V",
  },
  "programme-energies-doubtful": {
    hit: { figures: { "programme.energyError": 0.51 } },
    miss: { figures: { "programme.energyError": 0.49 } },
    severity: "look",
    path: "interrupter.limits.onTime",
    names: "51 %",
  },
  "programme-junction-near-limit": {
    hit: { figures: { "programme.junctionPeak": 140 }, reasons: { junction: trimmed(7) } },
    miss: { figures: { "programme.junctionPeak": 130 } },
    severity: "fix",
    path: "bridge.switch.junctionMax",
    names: "7 pulses",
  },
  "programme-limits-assumed": {
    hit: { study: { limitsAssumed: true } },
    miss: {},
    severity: "fix",
    path: "interrupter",
    names: "no limits",
  },
  "programme-notes-lowered": {
    hit: { figures: { "programme.notesLowered": 2 } },
    miss: { figures: { "programme.notesLowered": 0 } },
    severity: "look",
    path: "interrupter.limits",
    names: "2 notes",
  },
  "programme-notes-missing": {
    hit: {
      figures: { "programme.notes": 9, "programme.notesSilent": 3 },
      reasons: { rate: dropped(30), collision: dropped(4) },
    },
    miss: { figures: { "programme.notes": 9, "programme.notesSilent": 0 } },
    severity: "look",
    path: "interrupter.limits",
    names: "30 to keep the rate and 4 since they met a pulse of another note",
  },
  "programme-pitch-off": {
    hit: { figures: { "programme.pitchError": 5.1 } },
    miss: { figures: { "programme.pitchError": 4.9 } },
    severity: "look",
    path: "interrupter.limits.gap",
    names: "5.1 cent",
  },
  "programme-power-near-fuse": {
    hit: { figures: { "programme.peakPower": 230 } },
    miss: { figures: { "programme.peakPower": 215 } },
    severity: "look",
    path: "supply.fuse",
    names: "230 W",
  },
  "programme-pulses-missing": {
    hit: { figures: { "programme.pulses": 940, "programme.dropped": 60 }, reasons: { gap: dropped(60) } },
    miss: { figures: { "programme.pulses": 960, "programme.dropped": 40 }, reasons: { gap: dropped(40) } },
    severity: "look",
    path: "interrupter.limits",
    names: "60 to keep the gap",
  },
  "programme-rate-reached": {
    hit: { reasons: { rate: dropped(12) } },
    miss: { reasons: { collision: dropped(12) } },
    severity: "look",
    path: "interrupter.limits.rate",
    names: "12 pulses",
  },
  "programme-shortened": {
    hit: { figures: { "programme.pulses": 100, "programme.trimmed": 21 }, reasons: { duty: trimmed(21) } },
    miss: { figures: { "programme.pulses": 100, "programme.trimmed": 19 }, reasons: { duty: trimmed(19) } },
    severity: "look",
    path: "interrupter.limits",
    names: "21 to keep the duty",
  },
  "programme-silent": {
    hit: { figures: { "programme.pulses": 0 }, reasons: { capacitor: dropped(5) } },
    miss: { figures: { "programme.pulses": 1 } },
    severity: "fix",
    path: "interrupter.limits",
    names: "to keep the bank from getting hot",
  },
  "programme-unlit": {
    hit: { figures: { "programme.pulses": 100, "programme.unlit": 11 } },
    miss: { figures: { "programme.pulses": 100, "programme.unlit": 9 } },
    severity: "look",
    path: "interrupter.onTime",
    names: "11 %",
  },
};

function changed({ figures = {}, reasons = {}, study = {} }: Change): ProgrammeStudy {
  const stood = Object.entries(figures).map(
    ([id, value]) => [id, figure(id, value, { from: [], source: "programme-plan" })] as const,
  );
  return {
    ...quiet,
    ...study,
    reasons: { ...quiet.reasons, ...reasons },
    figures: new Map([...quiet.figures, ...stood]),
  };
}
const asked = (change: Change) => assessProgramme({ file, solution, programme: changed(change) });

describe("the rules about a programme", () => {
  // law: the list and the cases name the same rules, once each, and none of the others
  it("each have a hit and a miss", () => {
    expect(programmeRules.map(({ id }) => id).sort()).toEqual(Object.keys(cases).sort());
    expect(rules.filter(({ room }) => room === "programme")).toEqual([]);
  });

  // law: the quiet song is the ground of every case, so it must be quiet
  it("have nothing to say about a low tone", () => expect(asked({})).toEqual([]));

  // law: severity, place, evidence and words of every rule
  describe.each(programmeRules.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
    const { hit, miss, severity, path, names } = cases[id]!;
    it("speaks up where its line is crossed", () => {
      const found = asked(hit).find((finding) => finding.rule === id)!;
      expect(found).toMatchObject({ severity, path });
      expect(found.what).toContain(names);
      expect(found.place?.line).toBeGreaterThan(0);
      expect(found.remedies.length).toBeGreaterThan(0);
      expect(sources.has(rule.source)).toBe(true);
      for (const needed of rule.needs) expect(quantities.has(needed), needed).toBe(true);
      for (const evidence of found.evidence.filter((one) => one.startsWith("programme.")))
        expect(quantities.has(evidence), evidence).toBe(true);
      for (const words of [found.what, found.expected ?? "", rule.says, ...found.remedies.map(({ says }) => says)]) {
        expect(words).not.toMatch(/\b(safe|safely|safety|allowed|permitted|harmless|compliant|no danger)\b/i);
        expect(words).not.toMatch(/NaN|undefined|Infinity|\d\.\d{6}/);
      }
      expect(found.what).not.toMatch(/\.$/);
      expect(rule.says).toMatch(/\.$/);
    });
    it("is silent just inside its line", () =>
      expect(asked(miss).filter((finding) => finding.rule === id)).toEqual([]));
  });
});
