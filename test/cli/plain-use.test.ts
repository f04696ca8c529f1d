/** What somebody types who has the files in the wrong order, half an option or an odd coil; each answer says what to do. */
import { describe, expect, it } from "vitest";
import { run } from "../../src/cli/run.ts";
import { writeMidi } from "../../src/readers/song.ts";
import { editedText } from "../findings/changed.ts";
import { quietDriver } from "../findings/quiet-driver.ts";
import { songOf, tone } from "../programme/songs.ts";
import { memoryIo } from "./memory-io.ts";

const midi = writeMidi(songOf([tone({ start: 0, end: 0.4, pitch: 45 })])).bytes;
const files = {
  "coil.yaml": quietDriver,
  "song.tune": "tune One\n10 ms: A1\n",
  "empty.tune": "tune Nothing in it\ntempo 90\n",
};

async function told(argv: readonly string[], more: Readonly<Record<string, string>> = {}) {
  const io = memoryIo({ ...files, ...more });
  const { read, pieces } = io;
  const whole = {
    size: midi.length,
    pieces: (async function* () {
      yield midi;
    })(),
  };
  const world = {
    ...io,
    read: async (path: string) => {
      // As the disk does it: bytes that are no text are refused before anybody looks at them.
      if (path === "song.mid") throw new Error("song.mid is not UTF-8 text");
      return read(path);
    },
    pieces: async (path: string) => (path === "song.mid" ? whole : pieces(path)),
  };
  const code = await run(argv, world);
  return { code, ...io.printed };
}

describe("a file where another was wanted", () => {
  it.each([
    [["check", "song.mid"], "song.mid is a song, and a coil file is wanted here"],
    [["tune", "song.tune"], "song.tune is a song, and a coil file is wanted here"],
    [["play", "song.tune", "song.mid"], "song.mid is a song, and a coil file is wanted here"],
    [["play", "coil.yaml", "song.tune"], "coil.yaml is a coil file, and the song comes first"],
  ])("%j is told what it is", async (argv, words) => {
    const { code, err, out } = await told(argv);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toContain(words);
    expect(err).toContain("coilwright play");
  });
});

describe("half an option", () => {
  it.each([
    [["play", "coil.yaml", "--sweep", ".."], "--sweep ..: expected two frequencies"],
    [["play", "coil.yaml", "--sweep", "100Hz.."], "--sweep 100Hz..: expected two frequencies"],
    [["standoff", "coil.yaml", "--plan", "-", "--json"], "only one of --plan -, --section - and --json"],
    [["standoff", "coil.yaml", "--plan", "-", "--section", "-"], "only one of --plan -, --section - and --json"],
  ])("%j is refused", async (argv, words) => {
    const { code, err } = await told(argv);
    expect(code).toBe(2);
    expect(err).toContain(words);
  });

  it("of why under play names the verb that knows the figure, or lists the figures one to a line", async () => {
    const tone100 = ["play", "coil.yaml", "--tone", "100Hz", "--lasts", "50ms", "--why"];
    expect((await told([...tone100, "standoff.audience"])).err).toContain("coilwright why coil.yaml standoff.audience");
    const { err } = await told([...tone100, "zzz"]);
    expect(err.split("\n").length).toBeGreaterThan(10);
    expect(err).toMatch(/^ {2}programme\.pulses$/m);
  });
});

describe("a song", () => {
  it("without notes shows its line, and stops no coil", async () => {
    const { code, out } = await told(["play", "empty.tune", "coil.yaml"]);
    expect(code).toBe(2);
    expect(out).toContain("1 | tune Nothing in it");
    expect(out).toContain("1 to mend before it can be played");
    expect(out).not.toContain("switch on");
  });

  it("of one pulse counts one", async () => {
    const { out } = await told(["play", "song.tune", "coil.yaml"]);
    expect(out.replaceAll(/\s+/g, " ")).toContain("the worst second has 1 pulse ");
    expect(out.replaceAll(/\s/g, " ")).not.toMatch(/\b1 pulses/);
    expect(out).not.toContain("worst second;");
  });
});

describe("a coil with the longest name there is", () => {
  const name = "N".repeat(80);
  const long = { "long.yaml": editedText(quietDriver, { name }) };
  it.each(["tune", "burst", "driver", "bringup", "standoff"])(
    "keeps the head of %s within 80 columns",
    async (verb) => {
      const { out } = await told([verb, "long.yaml"], long);
      const [first = "", second] = out.split("\n");
      expect(first.replace("…", "")).toMatch(/^N+$/);
      expect([...first].length).toBeLessThanOrEqual(80);
      expect(second).toBe("long.yaml");
    },
  );
});
