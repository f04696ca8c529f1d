/** Teaching pictures: their numbers against closed forms, their marks on the stage, their captions on the page. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCoil } from "../../../src/readers/coil-file.ts";
import { energySeeSaw } from "../../../src/views/pictures/energy-see-saw.ts";
import type { Mark, Picture } from "../../../src/views/pictures/picture.ts";
import { picturesOfCoil } from "../../../src/views/pictures/pictures-of-coil.ts";
import { rectifierCourse } from "../../../src/views/pictures/rectifier-picture.ts";
import { skinDepthPicture } from "../../../src/views/pictures/skin-depth.ts";
import { pictureSvg } from "../../../src/views/pictures/svg.ts";
import { twoPendulums } from "../../../src/views/pictures/two-pendulums.ts";
import { approach } from "../../../src/workbench/approach.ts";
import { study } from "../../../src/workbench/burst-stage.ts";
import { solve } from "../../../src/workbench/solve.ts";

function picturesOf(example: string): readonly Picture[] {
  const path = `examples/${example}.yaml`;
  const { coil } = readCoil(readFileSync(path, "utf8"));
  if (coil === undefined) throw new Error(`${path} does not read`);
  const solution = solve(coil);
  return picturesOfCoil({
    coil,
    solution,
    study: study(coil, solution, {}, { waveforms: true }),
    approach: approach(coil),
  });
}

const examples = ["inkwell", "thimble", "belfry"].map((name) => ({ name, pictures: picturesOf(name) }));
const phases = [0, 0.13, 0.31, 0.5, 0.77, 1];
const cornersOf = (mark: Mark) => ("points" in mark ? mark.points : [mark.at]);

describe.each(examples)("the pictures of $name", ({ pictures }) => {
  it("tell the seven stories", () => {
    expect(pictures.map(({ id }) => id)).toEqual([
      "rectifier",
      "half-cycle",
      "energy-see-saw",
      "two-pendulums",
      "approach",
      "train-spectrum",
      "skin-depth",
    ]);
  });

  it.each(pictures.map((picture) => ({ id: picture.id, picture })))(
    "$id stays on the stage at every phase",
    ({ picture }) => {
      for (const phase of phases) {
        for (const mark of picture.at(phase)) {
          for (const [x, y] of cornersOf(mark)) {
            expect(x).toBeGreaterThanOrEqual(0);
            expect(x).toBeLessThanOrEqual(1600);
            expect(y).toBeGreaterThanOrEqual(120);
            // Below this stands the caption.
            expect(y).toBeLessThanOrEqual(745);
          }
        }
      }
    },
  );

  it.each(pictures.map((picture) => ({ id: picture.id, picture })))(
    "$id has a caption that fits, and says no permission",
    ({ picture }) => {
      const svg = pictureSvg(picture, "paper");
      const rows = [...svg.matchAll(/font-size="24"[^>]*>([^<]*)</g)].map(([, row]) => row ?? "");
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
      expect(picture.caption.join(" ").split(" ").length).toBeGreaterThan(10);
      const shown = rows.join(" ");
      for (const word of picture.caption.join(" ").replaceAll("&", "&amp;").split(" ")) expect(shown).toContain(word);
      expect(picture.caption.join(" ")).not.toMatch(/\b(safe|allowed|harmless|permitted)\b/i);
    },
  );
});

describe("the energy see-saw", () => {
  it("gives voltage and current the same energy", () => {
    // published: resonance of L and C, ½CV² = ½LI²; 50 nF and 20 µH at 1000 V: 50 A
    const picture = energySeeSaw({ capacitance: 50e-9, inductance: 20e-6, peakVoltage: 1000 });
    expect(picture.caption.join(" ")).toMatch(/25\.0\smJ/);
    expect(picture.caption.join(" ")).toMatch(/50\.0\sA/);
    expect(picture.caption.join(" ")).toMatch(/159\.2\skHz/);
  });
});

describe("the two pendulums", () => {
  it("have the swing across after half a beat", () => {
    // law: cos a + cos b = 2·cos((a+b)/2)·cos((a−b)/2); with whole swings to a beat the tank hangs still in its middle
    const picture = twoPendulums({ lower: 100e3, upper: 125e3, coupling: 0.22 });
    const bobs = (phase: number) => picture.at(phase).filter((mark) => mark.kind === "dot" && mark.radius === 34);
    const [tank, secondary] = bobs(0.5);
    expect(tank?.kind === "dot" ? tank.at[0] : 0).toBeCloseTo(250, 6);
    expect(Math.abs((secondary?.kind === "dot" ? secondary.at[0] : 0) - 590)).toBeGreaterThan(150);
    expect(picture.caption.join(" ")).toMatch(/20\.0\sµs/);
  });
});

describe("the rectifier", () => {
  const bridge = { voltage: 230, frequency: 50, rectifier: "bridge", capacitance: 1e-3, load: 1 } as const;

  it("lets the bus fall by what the load takes between crests", () => {
    // published: ripple of a capacitor behind a full-wave rectifier, at most I/(2fC) = 10 V here
    const { first } = rectifierCourse(bridge);
    const ripple = Math.max(...first) - Math.min(...first);
    expect(ripple).toBeLessThan(10);
    expect(ripple).toBeGreaterThan(8);
  });

  it("doubles with two capacitors, each filled by its own half-wave", () => {
    const { first, second } = rectifierCourse({ ...bridge, rectifier: "doubler" });
    const total = first.map((volts, n) => volts + (second[n] ?? 0));
    expect(Math.max(...total)).toBeGreaterThan(1.9 * Math.SQRT2 * 230);
    expect(Math.max(...total)).toBeLessThan(2 * Math.SQRT2 * 230);
  });
});

describe("the skin depth", () => {
  it("is 0.21 mm in copper at 100 kHz and metres in muscle", () => {
    // published: √(2ρ/ωµ) with IACS copper (IEC 60028): 0.209 mm at 100 kHz; muscle 2.8 m (four-term Cole-Cole data)
    const words = skinDepthPicture({ frequency: 100e3, wire: 0.3e-3 }).caption.join(" ");
    expect(words).toMatch(/0\.21\smm/);
    expect(words).toMatch(/2\.8\sm/);
  });
});
