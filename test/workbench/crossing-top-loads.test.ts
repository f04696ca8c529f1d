/** Several top loads that touch or cross are one conductor. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import { solve } from "../../src/workbench/solve.ts";

const text = readFileSync(new URL("../../examples/inkwell.yaml", import.meta.url), "utf8");

/** The example with its toroid and, in place of its breakout point, another top load or none. */
function figuresWith(topLoad: string | undefined) {
  const edited = editCoil(text, [{ path: "topload.1", value: topLoad }]);
  if (!("text" in edited)) throw new Error(JSON.stringify(edited));
  const { coil, findings } = readCoil(edited.text);
  expect(findings).toEqual([]);
  return solve(coil!).figures;
}

describe("a disc that closes the hole of the toroid", () => {
  const alone = figuresWith(undefined);
  const crossed = figuresWith("{ disc: { diameter: 260 mm, thickness: 3 mm, height: 640 mm } }");
  // law: more metal at the top's potential, more capacitance, lower f1; inside the hole it is nearly shaded
  it("adds a little capacitance and lowers f1 a little", () => {
    const gain = crossed.get("topload.capacitanceInPlace")!.value / alone.get("topload.capacitanceInPlace")!.value;
    expect(gain).toBeGreaterThan(1);
    expect(gain).toBeLessThan(1.2);
    expect(crossed.get("secondary.f1")!.value).toBeLessThan(alone.get("secondary.f1")!.value);
  });
  // law: a ball wholly inside the tube cannot be seen from outside
  it("changes nothing where it is inside the other", () => {
    const hidden = figuresWith("{ toroid: { outerDiameter: 260 mm, tubeDiameter: 20 mm, height: 640 mm } }");
    expect(hidden.get("secondary.f1")!.value).toBeCloseTo(alone.get("secondary.f1")!.value, 6);
  });
});
