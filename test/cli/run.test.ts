import { describe, expect, it } from "vitest";
import { quantities } from "../../src/catalogue/index.ts";
import { run } from "../../src/cli/run.ts";
import { starter } from "../../src/cli/starter.ts";
import { rules } from "../../src/findings/index.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { editedText } from "../findings/changed.ts";
import { quietDriver } from "../findings/quiet-driver.ts";
import { memoryIo } from "./memory-io.ts";

const mistuned = editedText(quietDriver, { "primary.tap": "9.6" });
const broken = "coilwright: 1\nsecondary: { turns: many }\n";

async function told(argv: readonly string[], files: Readonly<Record<string, string>> = {}, standardInput = "") {
  const io = memoryIo(files, { standardInput });
  const code = await run(argv, io);
  return { code, io, out: io.printed.out, err: io.printed.err };
}

describe("coilwright check", () => {
  it("ends with 0 where there is nothing to stop for or to fix", async () => {
    const { code, out, err } = await told(["check", "quiet.yaml"], { "quiet.yaml": quietDriver });
    expect(code).toBe(0);
    expect(out).toContain("No rule has anything to say about this coil. That is no permission to switch it on.");
    expect(err).toBe("");
  });

  it("ends with 1 where there is something to fix, and says how", async () => {
    const { code, out } = await told(["check", "coil.yaml"], { "coil.yaml": mistuned });
    expect(code).toBe(1);
    expect(out).toMatch(/^coil\.yaml:\d+:\d+ {2}fix {2}mistuned\n/);
    expect(out).toContain("coilwright check coil.yaml --apply mistuned.1");
  });

  it("ends with 2 where the file is no coil, with the line that is wrong", async () => {
    const { code, out } = await told(["check", "coil.yaml"], { "coil.yaml": broken });
    expect(code).toBe(2);
    expect(out).toContain("    2 | secondary: { turns: many }");
  });

  it("ends with 2 where there is no file, and says how to make one", async () => {
    const { code, out, err } = await told(["check", "gone.yaml"]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toBe("coilwright: there is no file gone.yaml; make one with: coilwright new gone.yaml\n");
  });

  it("reads standard input for -", async () => {
    const { code, out } = await told(["check", "-"], {}, mistuned);
    expect(code).toBe(1);
    expect(out).toContain("standard input:");
  });

  it("prints figures and findings as JSON, in SI", async () => {
    const { code, out } = await told(["check", "coil.yaml", "--json"], { "coil.yaml": mistuned });
    const answer = JSON.parse(out);
    expect(code).toBe(1);
    expect(Object.keys(answer)).toEqual(["quantities", "findings"]);
    expect(answer.quantities["tank.capacitance"]).toEqual({ value: expect.closeTo(1e-8, 12), unit: "F" });
    expect(answer.findings[0]).toMatchObject({ rule: "mistuned", severity: "fix", path: "primary.tap" });
    for (const [id, { unit }] of Object.entries<{ unit: string }>(answer.quantities)) {
      expect(quantities.get(id)?.unit).toBe(unit);
    }
  });

  it("keeps the shape of its JSON where nothing could be read", async () => {
    const { code, out } = await told(["check", "gone.yaml", "--json"]);
    expect(code).toBe(2);
    expect(JSON.parse(out)).toMatchObject({ quantities: {}, findings: [{ rule: "not-read", severity: "stop" }] });
    const bad = await told(["tune", "coil.yaml", "--json"], { "coil.yaml": broken });
    expect(bad.code).toBe(2);
    expect(JSON.parse(bad.out).quantities).toEqual({});
    expect(JSON.parse(bad.out).findings.length).toBeGreaterThan(0);
  });
});

describe("coilwright check --apply", () => {
  it("edits the file, keeps its comments, and checks it again", async () => {
    const commented = mistuned.replace("tap: 9.6", "tap: 9.6   # by ear");
    const { code, io, err } = await told(["check", "coil.yaml", "--apply", "mistuned.1"], { "coil.yaml": commented });
    expect(code).toBe(0);
    expect(err).toBe("coil.yaml: mistuned.1 applied\n");
    expect(io.files.get("coil.yaml")).toMatch(/tap: \d\d\.\d+ {3}# by ear/);
  });

  it("takes the first remedy where no number is given", async () => {
    const { code } = await told(["check", "coil.yaml", "--apply", "mistuned"], { "coil.yaml": mistuned });
    expect(code).toBe(0);
  });

  it("applies several at once", async () => {
    const two = editedText(mistuned, { "primary.strikeRing.earthed": "false" });
    const { code, io } = await told(["check", "coil.yaml", "--apply", "strike-ring-not-earthed.1", "mistuned.1"], {
      "coil.yaml": two,
    });
    expect(code).toBe(0);
    expect(io.files.get("coil.yaml")).toContain("earthed: true }\ntank");
  });

  it("prints the edited text where it came from standard input", async () => {
    const { out } = await told(["check", "-", "--apply", "mistuned.1"], {}, mistuned);
    expect(out).toMatch(/^coilwright: 1\n/);
    expect(readCoil(out).coil?.primary?.tap).toBeCloseTo(11.1, 1);
  });

  const crowded = editedText(quietDriver, { "site.wall": undefined });
  it.each([
    [
      "a rule that found nothing",
      mistuned,
      "coupling-high.1",
      "no finding coupling-high in this file; it has mistuned",
    ],
    ["a number that is too high", mistuned, "mistuned.7", "mistuned has remedies 1 to 2, not 7"],
    [
      "a remedy for hands",
      crowded,
      "room-not-described.1",
      "room-not-described.1 is done by hand: measure the room and add it",
    ],
  ])("refuses %s and leaves the file alone", async (_what, text, choice, message) => {
    const { code, err, io } = await told(["check", "coil.yaml", "--apply", choice], { "coil.yaml": text });
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(io.files.get("coil.yaml")).toBe(text);
  });
});

describe("coilwright tune", () => {
  it("answers its question first, then shows the ledger", async () => {
    const { code, out } = await told(["tune", "coil.yaml"], { "coil.yaml": mistuned });
    expect(code).toBe(1);
    expect(out).toMatch(
      /^Quiet driver {2}coil\.yaml\nThe secondary rings at 29\d\.\d kHz, the tank at 3\d\d\.\d kHz, 1\.1\d\d of it\./,
    );
    for (const id of ["secondary.f2", "secondary.energyInductance", "tuning.tapForMatch", "poles.upper"]) {
      expect(out).toContain(` ${id}\n`);
    }
    expect(out).toContain("What can be done: coilwright check coil.yaml");
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("prints the curves beside the figures as JSON", async () => {
    const { out } = await told(["tune", "coil.yaml", "--json"], { "coil.yaml": quietDriver });
    const answer = JSON.parse(out);
    expect(Object.keys(answer)).toEqual(["quantities", "findings", "profile", "peaks", "detunings", "tracks"]);
    const [mode] = answer.profile;
    expect(mode.frequency).toBeCloseTo(answer.quantities["secondary.f1"].value, 6);
    expect(mode.voltage.at(0)).toBeCloseTo(0, 6);
    expect(mode.voltage.at(-1)).toBeCloseTo(1, 6);
    expect(answer.quantities["secondary.f1"]).not.toHaveProperty("low");
  });

  it("says so where there is no tank to tune", async () => {
    const alone = editedText(quietDriver, {
      primary: undefined,
      tank: undefined,
      feedback: undefined,
      bridge: undefined,
    });
    const { code, out } = await told(["tune", "coil.yaml"], { "coil.yaml": alone });
    expect(code).toBe(0);
    expect(out).toContain("There is no tank to tune.");
  });
});

describe("coilwright why", () => {
  it("explains a figure without solving again where it is asked to be quick", async () => {
    const { code, out } = await told(["why", "coil.yaml", "tank.frequency", "--quick"], { "coil.yaml": quietDriver });
    expect(code).toBe(0);
    // guard, looked at
    expect(out).toBe(`tank.frequency  285.14 kHz  tank: frequency, uncoupled
what it is   resonance of bank, primary and leads with the secondary away
how          1 / (2π × root of inductance × capacitance)
from         tank.capacitance                   10.00 nF
             tank.inductance                    31.16 µH
source       W. Thomson (1853): Resonance of one inductance and one capacitance:
             f = 1/(2π√(LC))
             what is taken from it: the frequency of a lossless loop; also ½LI²
             = ½CV²
             follows from the definitions, as in any textbook
`);
  });

  it("shows sensitivities and how sure it is", async () => {
    const { out } = await told(["why", "coil.yaml", "tank.capacitance"], { "coil.yaml": quietDriver });
    expect(out).toContain("moves with   tank.bank.each                         +1.0 % per %");
    expect(out).toContain("(90 %); knowing tank.bank.each exactly");
  });

  it("suggests the id that was meant", async () => {
    const { code, err } = await told(["why", "coil.yaml", "tank.frequncy"], { "coil.yaml": quietDriver });
    expect(code).toBe(2);
    expect(err).toContain("no figure tank.frequncy; did you mean tank.frequency?");
  });
});

describe("coilwright why, asked about a rule", () => {
  it("says what the rule looks for, on what it rests, and what it found here", async () => {
    const { code, out } = await told(["why", "coil.yaml", "mistuned"], { "coil.yaml": mistuned });
    expect(code).toBe(0);
    expect(out).toContain("looks for    A tank away from the aim hands over less of its energy");
    expect(out).toContain("common practice, no source");
    expect(out).toContain("the tank rings at");
    expect(out).toContain("tuning.aimRatio");
  });

  it("says so where the rule found nothing", async () => {
    const { code, out } = await told(["why", "coil.yaml", "coupling-high"], { "coil.yaml": mistuned });
    expect(code).toBe(0);
    expect(out).toContain("found here   nothing");
  });
});

describe("coilwright tune --sure", () => {
  it("shows and prints the interval of every figure", async () => {
    const alone = editedText(quietDriver, {
      primary: undefined,
      tank: undefined,
      feedback: undefined,
      bridge: undefined,
      "site.objects": undefined,
      "site.people": undefined,
    });
    const { out } = await told(["tune", "coil.yaml", "--sure", "--json"], { "coil.yaml": alone });
    for (const { low, value, high } of Object.values<Record<string, number>>(JSON.parse(out).quantities)) {
      expect(low).toBeLessThanOrEqual(value!);
      expect(high).toBeGreaterThanOrEqual(value!);
    }
  }, 30_000);
});

describe("coilwright doubt", () => {
  it("ranks what makes one figure unsure", async () => {
    const { code, out } = await told(["doubt", "coil.yaml", "tank.frequency"], { "coil.yaml": quietDriver });
    expect(code).toBe(0);
    expect(out).toMatch(/^tank\.frequency {2}285\.14 kHz {2}90 % within 28\d\.\d\d … 28\d\.\d\d kHz\n/);
    expect(out).toContain("the model itself");
    expect(out).toMatch(/Measuring [\w.]+ would shrink it most\.\n$/);
  });
});

describe("coilwright new", () => {
  it("writes a start that reads, solves, and has nothing to stop for or to fix", async () => {
    const made = await told(["new", "mine.yaml"]);
    expect(made.code).toBe(0);
    const { code } = await told(["check", "mine.yaml"], { "mine.yaml": made.io.files.get("mine.yaml") ?? "" });
    expect(code).toBe(0);
    expect(readCoil(starter).findings).toEqual([]);
  });

  it("starts from an example, and names those there are", async () => {
    const made = await told(["new", "mine.yaml", "--demo", "lantern"]);
    expect(made.io.files.get("mine.yaml")).toContain("name: Lantern");
    const { code, err } = await told(["new", "mine.yaml", "--demo", "torch"]);
    expect(code).toBe(2);
    expect(err).toContain("no example is called torch; there are lantern");
  });

  it("leaves a file that is there alone", async () => {
    const { code, io } = await told(["new", "mine.yaml"], { "mine.yaml": "mine" });
    expect(code).toBe(2);
    expect(io.files.get("mine.yaml")).toBe("mine");
  });
});

describe("coilwright format and migrate", () => {
  const uneven = quietDriver.replace("turns: 1600", "turns:   1600  # counted");

  it("print, check or write", async () => {
    const printed = await told(["format", "coil.yaml"], { "coil.yaml": uneven });
    expect(printed.out).toMatch(/turns: 1600 +# counted/);
    expect(printed.io.files.get("coil.yaml")).toBe(uneven);
    expect((await told(["format", "coil.yaml", "--check"], { "coil.yaml": uneven })).code).toBe(1);
    const written = await told(["format", "coil.yaml", "--write"], { "coil.yaml": uneven });
    expect(written.io.files.get("coil.yaml")).toBe(printed.out);
    expect((await told(["format", "coil.yaml", "--check"], { "coil.yaml": printed.out })).code).toBe(0);
  });

  it("do not take --check and --write together", async () => {
    expect((await told(["format", "coil.yaml", "--check", "--write"], { "coil.yaml": uneven })).code).toBe(2);
  });

  it("say where a file cannot be read, and leave it alone", async () => {
    const bad = "coilwright: 1\n  name: [\n";
    const { code, err, io } = await told(["format", "coil.yaml", "--write"], { "coil.yaml": bad });
    expect(code).toBe(2);
    expect(err).toContain("coil.yaml:");
    expect(io.files.get("coil.yaml")).toBe(bad);
  });

  it("leave a file of today's format as it is", async () => {
    const { code, out, io } = await told(["migrate", "coil.yaml"], { "coil.yaml": quietDriver });
    expect(code).toBe(0);
    expect(out).toBe("coil.yaml is in format 1 already\n");
    expect(io.files.get("coil.yaml")).toBe(quietDriver);
  });
});

describe("coilwright", () => {
  it("shows its verbs where it is given none", async () => {
    const { code, out } = await told([]);
    expect(code).toBe(0);
    for (const verb of ["new", "check", "tune", "why", "doubt", "open", "format", "migrate", "schema", "completion"]) {
      expect(out).toMatch(new RegExp(`^ {2}${verb}\\b`, "m"));
    }
    expect(out).toContain("No output of this program is a permission.");
  });

  it.each(["new", "check", "tune", "why", "doubt", "open", "format", "migrate", "schema", "completion"])(
    "gives examples in the help of %s",
    async (verb) => {
      const { code, out } = await told([verb, "--help"]);
      expect(code).toBe(0);
      expect(out).toContain(`coilwright ${verb}`);
      expect(out).toContain("Examples:\n  $ ");
    },
  );

  it("ends with 2 on a verb or an option that it does not have", async () => {
    expect((await told(["chek", "coil.yaml"])).code).toBe(2);
    const { code, err } = await told(["check", "coil.yaml", "--jsn"]);
    expect(code).toBe(2);
    expect(err).toContain("--json");
  });

  it("prints the schema that editors take", async () => {
    const { code, out } = await told(["schema"]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toHaveProperty("$schema");
  });

  it.each(["bash", "zsh", "fish"])("completes its verbs and options in %s", async (shell) => {
    const { code, out } = await told(["completion", shell]);
    expect(code).toBe(0);
    for (const word of ["check", "tune", "doubt", "apply", "demo"]) expect(out).toContain(word);
  });

  it("hands a file to the app's server", async () => {
    const { code, io } = await told(["open", "coil.yaml", "--port", "0", "--no-browser"], { "coil.yaml": quietDriver });
    expect(code).toBe(0);
    expect(io.served).toEqual([{ file: "coil.yaml", port: 0, browser: false }]);
    const bad = await told(["open", "coil.yaml", "--port", "http"]);
    expect(bad.err).toContain("http is no port; a whole number from 0 to 65535 was expected");
  });

  it("never says that anything is safe", async () => {
    const pages = await Promise.all([
      told([]),
      told(["check", "c"], { c: quietDriver }),
      told(["check", "c"], { c: mistuned }),
    ]);
    for (const { out } of pages) expect(out).not.toMatch(/\b(safe|allowed|harmless)\b/i);
    for (const { says } of rules) expect(says).not.toMatch(/\b(safe|allowed|harmless)\b/i);
  });
});
