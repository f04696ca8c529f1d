/** Coils that the pages speak of. */
import { readFileSync } from "node:fs";
import type { Coil } from "../../src/description/coil.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import type { CoilFile } from "../../src/workbench/contract.ts";

/** A bare winding of 400 turns, 100 mm in diameter, standing on the ground plane. `slender` is length over diameter. */
export function bareCoil(slender: number): Coil {
  const turns = 400;
  const length = 0.1 * slender;
  const wire = Math.min(0.8 * (length / turns), 0.0005);
  return {
    coilwright: 1,
    name: "bare",
    topload: [],
    site: { air: { temperature: 293.15, pressure: 101325, humidity: 0.5 }, people: [], objects: [] },
    secondary: {
      former: { outerDiameter: 0.1 - wire },
      wire: { bare: wire, overall: wire },
      turns,
      length,
      baseHeight: length / turns,
    },
  };
}

/** The table coil that the pages work out, read. It stands here and not among the examples, so that those may change. */
export function tableCoilFile(): CoilFile & { readonly coil: Coil } {
  const file = readCoil(readFileSync(new URL("./table-coil.yaml", import.meta.url), "utf8"));
  if (file.coil === undefined) throw new Error("test/docs/table-coil.yaml is no coil");
  return { ...file, coil: file.coil };
}
