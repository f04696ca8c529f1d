import { describe, expect, test } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import { schematic } from "../../src/views/schematic.ts";
import { currentPath } from "../../src/views/schematic-current.ts";
import type { SchematicText } from "../../src/views/schematic-data.ts";
import { limitWords, partOfFigure, partOfFinding, stresses, stressWord } from "../../src/views/schematic-stress.ts";
import { coilOf, exampleNames, exampleText } from "./coil-of-example.ts";
import { burst, coil, solution } from "./lectern-burst.ts";

const coils = exampleNames.map((name) => ({ name, coil: coilOf(exampleText(name)).coil }));
const bare = { ...coil } as { -readonly [K in keyof Coil]: Coil[K] };
for (const key of ["primary", "tank", "bridge", "supply", "feedback", "interrupter"] as const) delete bare[key];

/** Corners of a path of M, H, V and L with whole coordinates. */
function corners(path: string): [number, number][] {
  let [x, y] = [0, 0];
  return [...path.matchAll(/([MHVL])([^MHVL]+)/g)].map(([, command, numbers]) => {
    const [a = 0, b = 0] = (numbers ?? "").trim().split(/[ ,]+/).map(Number);
    if (command === "H") x = a;
    else if (command === "V") y = a;
    else [x, y] = [a, b];
    return [x, y];
  });
}

const boxOf = ({ x, y, text, anchor, role }: SchematicText) => {
  const width = text.length * (role === "value" ? 7 : 6.6);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - 10, bottom: y + 2, text };
};

describe("the diagram", () => {
  for (const { name, coil: drawn } of [...coils, { name: "a coil without a driver", coil: bare }]) {
    test(`of ${name} stays on its page, and its words do not cover each other`, () => {
      const { width, height, top, texts, boxes } = schematic(drawn);
      const words = texts.map(boxOf);
      for (const [n, a] of words.entries()) {
        expect(a.left, a.text).toBeGreaterThanOrEqual(0);
        expect(a.right, a.text).toBeLessThanOrEqual(width);
        expect(a.top, a.text).toBeGreaterThanOrEqual(top);
        expect(a.bottom, a.text).toBeLessThanOrEqual(top + height);
        for (const b of words.slice(n + 1)) {
          const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
          expect(apart, `${a.text} / ${b.text}`).toBe(true);
        }
      }
      expect(new Set(boxes.map(({ part }) => part)).size).toBe(boxes.length);
      for (const box of boxes) {
        // published: WCAG 2.2, success criterion 2.5.8, at the least width that the diagram is shown in, 860 of 1200
        expect(Math.min(box.width, box.height) * (860 / 1200), box.part).toBeGreaterThanOrEqual(24);
      }
    });
  }

  test("draws what the file has: kind of bridge, of rectifier, of sense", () => {
    const symbolsOf = (one: Coil, part: string) =>
      schematic(one).symbols.filter((symbol) => symbol.part === part).length;
    expect(symbolsOf(coilOf(exampleText("inkwell")).coil, "switches")).toBe(4);
    expect(symbolsOf(coilOf(exampleText("belfry")).coil, "switches")).toBe(8);
    const named = (one: Coil) => schematic(one).boxes.map(({ name }) => name);
    expect(named(coilOf(exampleText("belfry")).coil)).toContain("doubler");
    expect(named(coilOf(exampleText("inkwell")).coil)).toContain("rectifier");
    expect(
      schematic(bare)
        .boxes.filter(({ inFile }) => inFile)
        .map(({ part }) => part),
    ).toEqual(["secondary", "streamer"]);
    const fixed: Coil = {
      ...coil,
      ...(coil.feedback && { feedback: { ...coil.feedback, sense: { fixedFrequency: 2.1e5 } } }),
    };
    expect(schematic(fixed).boxes.some(({ part }) => part === "sense")).toBe(false);
    expect(schematic(fixed).texts.map(({ text }) => text)).toContain("210 kHz");
  });
});

describe("the path of the current", () => {
  for (const kind of ["half", "full"] as const) {
    for (const conducting of [1, 2, 3, 4] as const) {
      // law: the current runs in a closed loop, whose only gaps are the plates of the bus capacitors, 8 apart
      test(`${kind} bridge, ${conducting}: closes`, () => {
        const pieces = currentPath(kind, conducting).map(corners);
        const looped = [...pieces, pieces[0] ?? []];
        for (let n = 0; n < pieces.length; n++) {
          const [fromX, fromY] = looped[n]?.at(-1) ?? [Number.NaN, 0];
          const [toX, toY] = looped[n + 1]?.[0] ?? [Number.NaN, 0];
          expect(toX).toBe(fromX);
          expect(Math.abs(toY - fromY)).toBeLessThanOrEqual(8);
        }
      });
    }
  }

  // law: a switch and its diode lie side by side: same ends, another way between
  test("goes around a switch through its diode", () => {
    const [bySwitch, byDiode] = [currentPath("half", 1)[1] ?? "", currentPath("half", 2)[1] ?? ""];
    expect(corners(byDiode)[0]).toEqual(corners(bySwitch)[0]);
    expect(corners(byDiode).at(-1)).toEqual(corners(bySwitch).at(-1));
    expect(byDiode).not.toBe(bySwitch);
  });

  test("is nowhere when nothing conducts", () => expect(currentPath("full", 0)).toEqual([]));
});

describe("stress", () => {
  const figures = new Map([...solution.figures, ...burst.figures]);
  const held = stresses(coil, figures);

  test("is a figure over the limit in the file", () => {
    const pulse = held.find(({ says }) => says.startsWith("peak current of the pulse"));
    expect(pulse?.share).toBeCloseTo((figures.get("burst.peakPrimaryCurrent")?.value ?? 0) / 240, 12);
    const junction = held.find(({ says }) => says.startsWith("junction"));
    // by hand: (T − 25 °C) / (150 °C − 25 °C)
    expect(junction?.share).toBeCloseTo(((figures.get("switch.junctionPeak")?.value ?? 0) - 25) / 125, 9);
  });

  test("leaves out what the file does not bound", () => {
    expect(stresses(bare, figures)).toEqual([]);
    expect(stresses(coil, new Map())).toEqual([]);
  });

  test("is told in words that permit nothing", () => {
    expect(["over", "near", "below"]).toEqual([1.2, 0.9, 0.3].map((share) => stressWord({ share, kind: "rating" })));
    expect(limitWords({ share: 1.1, kind: "setting" })).toBe("the trip acts");
    expect(limitWords({ share: 0.4, kind: "rating" })).toBe("below the limit");
  });

  test("figures and findings stand at their part", () => {
    expect(partOfFigure("mains.inrushPeak")).toBe("inrush");
    expect(partOfFigure("mains.power")).toBe("mains");
    expect(partOfFigure("bus.dischargeTime")).toBe("bleeder");
    expect(partOfFinding({ path: "bridge.gate.resistor" })).toBe("gate");
    expect(partOfFinding({ path: "bridge.switch.pulse" })).toBe("switches");
    expect(partOfFinding({ path: "site.wall" })).toBeUndefined();
    // every figure of the driver has a place in the diagram
    for (const id of burst.figures.keys()) {
      if (/^(switch|bus|mains|gate|feedback|control|bank)\./.test(id)) expect(partOfFigure(id), id).toBeDefined();
    }
  });
});
