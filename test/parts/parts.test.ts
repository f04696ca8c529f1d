import { describe, expect, it } from "vitest";
import { isQuantityKey, type Key, type KeyRecord } from "../../src/catalogue/keys.ts";
import {
  boundsOf,
  conductorExtent,
  conductorOutline,
  conductors,
  endsOf,
  type Outline,
  rings,
  surroundings,
  topLoadKind,
  topLoadOutline,
  topLoadProblem,
  topLoads,
  unusedRings,
  type WoundSize,
  wound,
} from "../../src/parts/index.ts";
import { readQuantity } from "../../src/units/index.ts";

/** A size made of the examples that the keys themselves give. */
function exampleOf(key: Key): unknown {
  if (isQuantityKey(key)) {
    const reading = readQuantity(key.default ?? key.example ?? "", { dimension: key.dimension });
    if ("problem" in reading) throw new Error(`${key.says}: ${reading.problem.what}`);
    return reading.quantity.value;
  }
  if (key.kind === "flag") return key.default ?? false;
  if (key.kind === "record") return sizeOf(key.keys);
  throw new Error(`no example for ${key.says}`);
}
function sizeOf(keys: KeyRecord): Record<string, unknown> {
  return Object.fromEntries(Object.entries(keys).map(([name, key]) => [name, exampleOf(key)]));
}
/** Bounds to a picometre, past the rounding of sums. */
function reachOf(outline: Outline) {
  return Object.fromEntries(
    Object.entries(boundsOf(outline)).map(([name, value]) => [name, Number(value.toFixed(12))]),
  );
}
const near = (a: { r: number; z: number }, b: { r: number; z: number }) => Math.hypot(a.r - b.r, a.z - b.z) < 1e-12;
/** Volume enclosed by an outline turned about the axis: ½∮r² dz, by quadrature. Positive where the inside lies on the left. */
function volumeOf(outline: Outline): number {
  let sum = 0;
  for (const piece of outline) {
    const { from, to } = endsOf(piece);
    const steps = 20_000;
    for (let i = 0; i < (piece.kind === "line" ? 1 : steps); i++) {
      if (piece.kind === "line") {
        sum += ((from.r ** 2 + from.r * to.r + to.r ** 2) / 3) * (to.z - from.z);
        continue;
      }
      const angle = piece.from + ((piece.to - piece.from) * (i + 0.5)) / steps;
      const r = piece.centre.r + piece.radius * Math.cos(angle);
      sum += r ** 2 * piece.radius * Math.cos(angle) * ((piece.to - piece.from) / steps);
    }
  }
  return Math.PI * sum;
}

const outlines: [string, Outline, "solid" | "sheet"][] = [
  ...Object.values(topLoads).map((part): [string, Outline, "solid"] => [
    part.kind,
    part.outline(sizeOf(part.keys) as never),
    "solid",
  ]),
  ...Object.values(surroundings).map((part): [string, Outline, "solid" | "sheet"] => [
    part.kind,
    part.outline(sizeOf(part.keys) as never),
    part.kind === "wall" || part.kind === "ceiling" ? "sheet" : "solid",
  ]),
  ...Object.values(conductors).map((part): [string, Outline, "solid" | "sheet"] => [
    part.kind,
    part.outline(exampleOf(part.key) as never, { radius: 0.1, height: 0.2 }),
    part.kind === "trace" ? "sheet" : "solid",
  ]),
];

describe("every part", () => {
  it("is listed under its own kind", () => {
    for (const list of [topLoads, conductors, surroundings])
      for (const [name, part] of Object.entries(list)) expect(part.kind).toBe(name);
  });

  it("says what each of its keys is, with an example that is read", () => {
    for (const part of [...Object.values(topLoads), ...Object.values(surroundings)]) {
      for (const key of Object.values(part.keys as KeyRecord)) expect(key.says.length).toBeGreaterThan(2);
      expect(() => sizeOf(part.keys)).not.toThrow();
    }
  });

  // law: pieces join, and a solid closes or runs from the axis to the axis
  it.each(outlines)("%s has an outline in one piece", (_, outline, kind) => {
    expect(outline.length).toBeGreaterThan(0);
    outline.forEach((piece, i) => {
      const next = outline[i + 1];
      if (next !== undefined) expect(near(endsOf(piece).to, endsOf(next).from)).toBe(true);
    });
    const [first, last] = [outline[0], outline.at(-1)];
    if (first === undefined || last === undefined || kind === "sheet") return;
    const [from, to] = [endsOf(first).from, endsOf(last).to];
    const onAxis = Math.abs(from.r) < 1e-12 && Math.abs(to.r) < 1e-12;
    expect(near(from, to) || onAxis).toBe(true);
  });

  it.each(outlines.filter(([, , kind]) => kind === "solid"))(
    "%s has its inside on the left and lies at r ≥ 0",
    (_, outline) => {
      expect(volumeOf(outline)).toBeGreaterThan(0);
      expect(boundsOf(outline).innerR).toBeGreaterThanOrEqual(-1e-12);
    },
  );
});

describe("sizes of outlines", () => {
  // law: closed forms of solids of revolution; the quadrature is good to 1e-8
  it.each<[string, Outline, number]>([
    [
      "torus 2π²Ra²",
      topLoads.toroid.outline({ outerDiameter: 0.3, tubeDiameter: 0.08, height: 0.6 }),
      2 * Math.PI ** 2 * 0.11 * 0.04 ** 2,
    ],
    ["ball 4πR³/3", topLoads.sphere.outline({ diameter: 0.06, height: 0.2 }), (4 / 3) * Math.PI * 0.03 ** 3],
    [
      "disc with a half-round rim",
      topLoads.disc.outline({ diameter: 0.2, thickness: 0.01, height: 0.5 }),
      discVolume(0.2, 0.01),
    ],
    [
      "can without visible rounding",
      topLoads.cylinder.outline({ diameter: 0.1, length: 0.2, edgeRadius: 1e-7, height: 0.5 }),
      Math.PI * 0.05 ** 2 * 0.2,
    ],
    [
      "can that is a ball",
      topLoads.cylinder.outline({ diameter: 0.1, length: 0.1, edgeRadius: 0.05, height: 0.5 }),
      (4 / 3) * Math.PI * 0.05 ** 3,
    ],
    [
      "capsule",
      surroundings.rod.outline({ at: 1, height: 1.1, diameter: 0.02, foot: 0.1, earthed: true }),
      Math.PI * 1e-4 * 0.98 + (4 / 3) * Math.PI * 1e-6,
    ],
  ])("%s", (_, outline, volume) => expect(Math.abs(volumeOf(outline) / volume - 1)).toBeLessThan(1e-5));

  /** Core π(R−a)²·2a, and half a torus about it by Pappus: area πa²/2, centroid at R−a + 4a/(3π). */
  function discVolume(diameter: number, thickness: number): number {
    const [R, a] = [diameter / 2, thickness / 2];
    return Math.PI * (R - a) ** 2 * 2 * a + ((Math.PI * a ** 2) / 2) * 2 * Math.PI * (R - a + (4 * a) / (3 * Math.PI));
  }

  it("reach as far as the keys say", () => {
    expect(reachOf(topLoads.toroid.outline({ outerDiameter: 0.3, tubeDiameter: 0.08, height: 0.6 }))).toEqual({
      innerR: 0.07,
      outerR: 0.15,
      bottomZ: 0.56,
      topZ: 0.64,
    });
    expect(reachOf(surroundings.person.outline({ at: 3, height: 1.8, radius: 0.15, foot: 0.02 }))).toMatchObject({
      outerR: 0.15,
      bottomZ: 0.02,
      topZ: 1.8,
    });
    expect(reachOf(topLoads.disc.outline({ diameter: 0.2, thickness: 0.01, height: 0.5 }))).toMatchObject({
      outerR: 0.1,
      bottomZ: 0.495,
      topZ: 0.505,
    });
  });

  it("are refused where they are no shape", () => {
    expect(topLoadProblem({ toroid: { outerDiameter: 0.1, tubeDiameter: 0.05, height: 1 } })?.key).toBe("tubeDiameter");
    expect(topLoadProblem({ toroid: { outerDiameter: 0.1, tubeDiameter: 0.049, height: 1 } })).toBeUndefined();
    expect(topLoadProblem({ cylinder: { diameter: 0.1, length: 0.02, edgeRadius: 0.011, height: 1 } })?.key).toBe(
      "edgeRadius",
    );
    expect(topLoadProblem({ disc: { diameter: 0.01, thickness: 0.02, height: 1 } })?.key).toBe("thickness");
    expect(topLoadProblem({ sphere: { diameter: 0.01, height: 1 } })).toBeUndefined();
    expect(surroundings.person.impossible?.({ at: 1, height: 0.2, radius: 0.15, foot: 0.02 })?.key).toBe("height");
    expect(surroundings.rod.impossible?.({ at: 1, height: 0.1, diameter: 0.2, foot: 0.02, earthed: true })?.key).toBe(
      "height",
    );
    expect(
      surroundings.strikeRing.impossible?.({ diameter: 0.1, tube: 0.1, height: 1, earthed: true, closed: false })?.key,
    ).toBe("tube");
  });
});

describe("conductors", () => {
  it("have the section their keys say, at the turn's place", () => {
    expect(reachOf(conductorOutline({ tube: 0.008 }, { radius: 0.1, height: 0.2 }))).toEqual({
      innerR: 0.096,
      outerR: 0.104,
      bottomZ: 0.196,
      topZ: 0.204,
    });
    expect(conductorExtent({ wire: 0.004 })).toEqual({ along: 0.004, across: 0.004 });
    expect(conductorExtent({ trace: { width: 0.006, thickness: 7e-5 } })).toEqual({ along: 0.006, across: 7e-5 });
  });
  it("a strip lies in the surface of the winding", () => {
    const trace = { trace: { width: 0.006, thickness: 7e-5 } };
    expect(reachOf(conductorOutline(trace, { radius: 0.1, height: 0.2 }))).toMatchObject({
      innerR: 0.097,
      outerR: 0.103,
      bottomZ: 0.2,
      topZ: 0.2,
    });
    const upright = boundsOf(conductorOutline(trace, { radius: 0.1, height: 0.2, angle: Math.PI / 2 }));
    expect(upright.topZ - upright.bottomZ).toBeCloseTo(0.006, 12);
    expect(upright.outerR - upright.innerR).toBeCloseTo(0, 12);
  });
});

describe("rings of a primary", () => {
  const flat: WoundSize = {
    angle: 0,
    turns: 7,
    tap: 6.6,
    firstTurnDiameter: 0.176,
    pitch: 0.013,
    baseHeight: 0.185,
    layers: { count: 1, gap: 0.0016, connected: "series" },
  };
  // law: shares add up to the turns in circuit, and rings in and out of circuit to the turns wound
  it.each([
    [7, 6.6, 1],
    [7, 7, 1],
    [7, 1, 2],
    [7.5, 7.2, 1],
    [12, 0.4, 2],
    [5, 4.999999999999, 1],
  ] as const)("%d turns, tap %d, %d layers", (turns, tap, count) => {
    const size: WoundSize = { ...flat, turns, tap, layers: { ...flat.layers, count } };
    const [inCircuit, beyond] = [rings(size), unusedRings(size)];
    expect(inCircuit.reduce((sum, ring) => sum + ring.share, 0)).toBeCloseTo(tap * count, 9);
    expect(inCircuit.length + beyond.length).toBe(Math.ceil(turns) * count);
    expect(beyond.every((ring) => ring.share === 0)).toBe(true);
    expect(inCircuit.every((ring) => ring.share > 0 && ring.share <= 1)).toBe(true);
  });

  // law: the positions that the manual states
  it("lie where the manual says", () => {
    expect(rings(flat)).toHaveLength(7);
    expect(rings(flat)[0]).toEqual({ radius: 0.088, height: 0.185, share: 1 });
    expect(rings(flat)[6]?.radius).toBeCloseTo(0.088 + 6 * 0.013, 12);
    expect(rings(flat)[6]?.share).toBeCloseTo(0.6, 12);
    const cone = rings({ ...flat, angle: Math.PI / 6 });
    expect(cone[3]?.radius).toBeCloseTo(0.088 + 3 * 0.013 * Math.cos(Math.PI / 6), 12);
    expect(cone[3]?.height).toBeCloseTo(0.185 + 3 * 0.0065, 12);
    const helix = rings({ ...flat, angle: Math.PI / 2, tap: 7 });
    expect(new Set(helix.map((ring) => ring.radius.toFixed(9))).size).toBe(1);
    expect(helix[6]?.height).toBeCloseTo(0.185 + 6 * 0.013, 12);
  });
  it("a second layer lies the gap above a flat spiral and inside a helix", () => {
    const two = { ...flat, tap: 7, layers: { count: 2, gap: 0.002, connected: "series" } } as const;
    const [first, second] = [rings(two)[0], rings(two)[7]];
    expect(second?.height).toBeCloseTo((first?.height ?? 0) + 0.002, 12);
    expect(second?.radius).toBe(first?.radius);
    const inner = rings({ ...two, angle: Math.PI / 2 })[7];
    expect(inner?.radius).toBeCloseTo(0.088 - 0.002, 12);
    expect(inner?.height).toBeCloseTo(0.185, 12);
  });
  it("has keys for all it needs", () => {
    expect(Object.keys(wound.keys)).toEqual(expect.arrayContaining(Object.keys(flat)));
  });
});

describe("topLoadKind", () => {
  it("names the case", () => {
    expect(topLoadKind({ sphere: { diameter: 0.1, height: 1 } })).toBe("sphere");
    expect(topLoadOutline({ sphere: { diameter: 0.1, height: 1 } })).toHaveLength(1);
  });
});
