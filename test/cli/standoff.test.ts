import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { quantities } from "../../src/catalogue/index.ts";
import { run } from "../../src/cli/run.ts";
import { editedText } from "../findings/changed.ts";
import { quietDriver } from "../findings/quiet-driver.ts";
import { memoryIo } from "./memory-io.ts";

async function told(argv: readonly string[], files: Readonly<Record<string, string>>) {
  const io = memoryIo(files);
  const code = await run(argv, io);
  return { code, io, out: io.printed.out, err: io.printed.err };
}

describe("coilwright standoff", () => {
  it("says the line, what decides it, and that it is no permission", async () => {
    const { code, out, err } = await told(["standoff", "quiet.yaml"], { "quiet.yaml": quietDriver });
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain("the line\n");
    expect(out).toContain("← decides");
    expect(out).toContain("standoff.audience");
    expect(out).not.toContain("show day:");
    expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
  });

  it("prints the checklist where it is asked for", async () => {
    const { out } = await told(["standoff", "quiet.yaml", "--checklist"], { "quiet.yaml": quietDriver });
    expect(out).toContain("show day: one does, one reads and watches");
    expect(out).toContain("[ ] Unplug.");
  });

  it("ends with 1 where a hazard is not acknowledged", async () => {
    const text = editedText(quietDriver, { "show.acknowledged": "[ arc ]" });
    const { code, out } = await told(["standoff", "coil.yaml"], { "coil.yaml": text });
    expect(code).toBe(1);
    expect(out).toContain("hazard implants is not acknowledged");
    expect(out).toContain("show.acknowledged lacks touch, storedEnergy");
  });

  it("prints all of it as JSON, with interval, source and standing", async () => {
    const { code, out } = await told(["standoff", "quiet.yaml", "--json"], { "quiet.yaml": quietDriver });
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    for (const [id, one] of Object.entries<{ readonly unit: string }>(answer.quantities)) {
      expect(quantities.get(id)?.unit).toBe(one.unit);
      expect(one, id).toMatchObject({
        low: expect.any(Number),
        high: expect.any(Number),
        standing: expect.any(String),
      });
    }
    for (const key of ["line", "fields", "noise", "stored", "touch", "cautions", "hazards", "checklist", "missing"]) {
      expect(answer).toHaveProperty(key);
    }
    expect(out).not.toContain("Infinity");
    expect(answer.stored.stores[0].waitingWithFailedBleeder).toBe("none");
  });

  it("keeps the shape of its JSON where nothing could be read", async () => {
    const { code, out } = await told(["standoff", "coil.yaml", "--json"], {
      "coil.yaml": "coilwright: 1\nsecondary: { turns: many }\n",
    });
    expect(code).toBe(2);
    expect(JSON.parse(out)).toMatchObject({
      quantities: {},
      findings: expect.arrayContaining([expect.objectContaining({ severity: "stop" })]),
    });
  });

  it("writes plan and section, or prints one", async () => {
    const { io } = await told(["standoff", "quiet.yaml", "--plan", "plan.svg", "--section", "section.svg"], {
      "quiet.yaml": quietDriver,
    });
    expect(io.files.get("plan.svg")).toMatch(/^<svg/);
    expect(io.files.get("section.svg")).toContain("section 1:");
    const { out } = await told(["standoff", "quiet.yaml", "--plan", "-"], { "quiet.yaml": quietDriver });
    expect(out).toMatch(/^<svg[\s\S]*<\/svg>\n$/);
  });

  it("says of a coil without bridge that nobody but the operator is in the room", async () => {
    const { code, out } = await told(["standoff", "coil.yaml"], {
      "coil.yaml": editedText(quietDriver, { bridge: undefined }),
    });
    expect(code).toBeLessThan(2);
    expect(out.replaceAll(/\s+/g, " ")).toContain("nobody but the operator in the room");
  });
});

describe("coilwright why", () => {
  it("explains a figure of stand-off, with the mark of its source", async () => {
    const { code, out } = await told(["why", "quiet.yaml", "standoff.audience", "--quick"], {
      "quiet.yaml": quietDriver,
    });
    expect(code).toBe(0);
    expect(out).toContain("read in a secondary source");
    expect(out.replaceAll(/\s+/g, " ")).toContain("no permission");
    const touch = await told(["why", "quiet.yaml", "standoff.touch.line1", "--quick"], { "quiet.yaml": quietDriver });
    expect(touch.out).toContain("from memory, not checked against the source");
  });

  it("explains each rule of stand-off", async () => {
    const { out } = await told(["why", "quiet.yaml", "standoff-hazard-open"], { "quiet.yaml": quietDriver });
    expect(out).toContain("found here   nothing");
  });
});

describe("the demo coils", () => {
  it("are all judged", async () => {
    const text = readFileSync(new URL("../../examples/thimble.yaml", import.meta.url), "utf8");
    const { code, out } = await told(["standoff", "thimble.yaml"], { "thimble.yaml": text });
    expect(code).toBeLessThan(2);
    expect(out).toContain("3 m  about three metres");
  });
});
