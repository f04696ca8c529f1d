import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pairLines } from "../../src/app/frame/line-difference.ts";
import { pulledValue, writtenValue } from "../../src/app/gestures/written-value.ts";
import { decisiveOrigin } from "../../src/app/ledger/decisive-origin.ts";
import { editText } from "../../src/app/state/coil-text.ts";
import { latestOnly } from "../../src/app/worker/bench.ts";
import { drawing } from "../../src/views/drawing.ts";
import { coilOf, lecternText } from "../views/coil-of-example.ts";

const text = lecternText;
const { coil, provenances } = coilOf(text);
const dimension = (path: string) => {
  const found = drawing(coil, provenances).dimensions.find((one) => one.path === path);
  if (found === undefined) throw new Error(path);
  return found;
};

describe("a pulled value", () => {
  test("is written in the unit of the file, without the tolerance and origin of the old one", () => {
    expect(provenances.get("secondary.length")?.text).toBe("402 mm ± 1 mm (measured)");
    expect(writtenValue(dimension("secondary.length"), 0.41, provenances)).toBe("410 mm");
    expect(writtenValue(dimension("primary.tap"), 6.75, provenances)).toBe("6.75");
    expect(writtenValue(dimension("primary.angle"), Math.PI / 6, provenances)).toBe("30°");
  });

  test("keeps to its step and above its least", () => {
    expect(pulledValue(dimension("secondary.length"), 0.40234, 1e-3)).toBe(0.402);
    expect(pulledValue(dimension("secondary.turns"), -5, 1)).toBe(1);
    expect(pulledValue(dimension("secondary.turns"), 1150.4, 0.1)).toBe(1150);
  });
});

describe("an edit", () => {
  test("that makes no coil is refused in the reader's words", () => {
    const edited = editText(text, [{ path: "secondary.length", value: "12 kg" }]);
    expect("problem" in edited && edited.problem).toMatch(/kg/);
  });

  test("of a file that is broken already is let through, so that it can be mended step by step", () => {
    const broken = text.replace("turns: 1150", "turns: many");
    expect(editText(broken, [{ path: "secondary.length", value: "410 mm" }])).toHaveProperty("text");
  });
});

describe("two texts side by side", () => {
  // law: reading down one side gives that text back, and lines called the same are
  test("hold both of them, line by line", () => {
    const lines = fc.array(fc.constantFrom("a", "b", "c", "d"), { maxLength: 12 }).map((all) => all.join("\n"));
    fc.assert(
      fc.property(lines, lines, (mine, theirs) => {
        const pairs = pairLines(mine, theirs);
        expect(pairs.flatMap((pair) => pair.mine ?? []).join("\n")).toBe(mine);
        expect(pairs.flatMap((pair) => pair.theirs ?? []).join("\n")).toBe(theirs);
        for (const pair of pairs) expect(pair.same).toBe(pair.mine !== undefined && pair.mine === pair.theirs);
      }),
    );
  });

  test("mark one changed line as one on each side", () => {
    expect(pairLines("a\nb\nc", "a\nx\nc").filter(({ same }) => !same)).toHaveLength(2);
  });
});

describe("the origin that decides", () => {
  const doubt = (shares: readonly (readonly [string, number])[]) => ({
    id: "x",
    value: 1,
    unit: "1",
    low: 0.9,
    high: 1.1,
    model: 0,
    contributions: shares.map(([path, share]) => ({ path, share, halfWidth: share })),
  });

  test("is the least sure one among numbers that matter", () => {
    const found = decisiveOrigin(
      doubt([
        ["tank.bank.each", 0.6],
        ["tank.leads.inductance", 0.3],
      ]),
      provenances,
    );
    expect(found).toMatchObject({ origin: "guessed", path: "tank.leads.inductance" });
  });

  test("is not a guess that changes nothing", () => {
    const found = decisiveOrigin(
      doubt([
        ["tank.bank.each", 0.9],
        ["tank.leads.inductance", 0.001],
      ]),
      provenances,
    );
    expect(found?.origin).toBe("datasheet");
  });
});

test("while one question is open only the newest of the others is asked, and its answer comes last", async () => {
  const asked: number[] = [];
  const heard: [number, boolean][] = [];
  const open: (() => void)[] = [];
  const ask = latestOnly(
    (question: number) => {
      asked.push(question);
      return new Promise<number>((answer) => open.push(() => answer(question)));
    },
    (answer, isLate) => heard.push([answer, isLate]),
  );
  for (const question of [1, 2, 3, 4]) ask(question);
  open[0]?.();
  await new Promise((done) => setTimeout(done));
  open[1]?.();
  await new Promise((done) => setTimeout(done));
  expect(asked).toEqual([1, 4]);
  expect(heard).toEqual([
    [1, true],
    [4, false],
  ]);
});
