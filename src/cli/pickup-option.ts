/** Somebody's own wire or loop, in the words of `--pickup loop:100mm,turns:2,at:1.5m`. */
import { type Dimension, readQuantity } from "../units/index.ts";
import type { PickupInstrument } from "../workbench/bringup-contract.ts";
import { UserError } from "./io.ts";

const expected =
  "loop:100mm (its diameter), area:80cm² or wire:0.3m, then at:1.5m, and turns:2 or into:probe|50ohm where they are otherwise, with commas between";
const inputs: Readonly<Record<string, PickupInstrument["into"]>> = { probe: "probe", "50ohm": "terminated" };
const kinds = ["loop", "area", "wire"] as const;

/** One turn into 50 Ω where nothing else is said. @throws UserError  what it is or where it stands is not said, or cannot be read */
export function pickupOption(text: string | undefined): PickupInstrument | undefined {
  if (text === undefined) return undefined;
  const fail = (why: string): never => {
    throw new UserError(`--pickup ${text}: ${why}; expected ${expected}`);
  };
  const said = new Map(
    text.split(",").map((part): readonly [string, string] => {
      const [key = "", value = ""] = part.split(":").map((one) => one.trim());
      return [key, value];
    }),
  );
  const odd = [...said.keys()].find((key) => ![...kinds, "turns", "at", "into"].includes(key));
  if (odd !== undefined) fail(`\`${odd}\` is not known`);
  const quantity = (key: string, dimension: Dimension): number => {
    const reading = readQuantity(said.get(key) ?? "", { dimension });
    if ("problem" in reading) return fail(`${key}: ${reading.problem.what}`);
    return reading.quantity.value > 0 ? reading.quantity.value : fail(`${key} must be above zero`);
  };
  const given = kinds.filter((kind) => said.has(kind));
  const [kind] = given;
  if (kind === undefined || given.length > 1) return fail("one of loop, area and wire is needed");
  if (!said.has("at")) fail("how far from the coil's axis it stands is not said");
  const turns = Number(said.get("turns") ?? 1);
  if (!(Number.isInteger(turns) && turns >= 1)) fail("turns is no count");
  if (kind === "wire" && said.has("turns")) fail("a wire has no turns");
  const into = inputs[said.get("into") ?? "50ohm"];
  if (into === undefined) return fail("into is neither probe nor 50ohm");
  return {
    kind: kind === "wire" ? "wire" : "loop",
    // A loop of any shape counts by its area.
    size: kind === "area" ? Math.sqrt((4 * quantity("area", "area")) / Math.PI) : quantity(kind, "length"),
    turns: kind === "wire" ? 0 : turns,
    into,
    distance: quantity("at", "length"),
  };
}
