import { bringUpText } from "../../views/text/bring-up.ts";
import { findingsText } from "../../views/text/findings.ts";
import { checkJson } from "../../views/text/json.ts";
import { bringup as sheetOf } from "../../workbench/bringup.ts";
import { judge, readInput } from "../coil-input.ts";
import { exitFor } from "../exit.ts";
import type { Io } from "../io.ts";
import { pickupOption } from "../pickup-option.ts";

/** `coilwright bringup FILE`: the staged sheet for a first power-up. */
export async function bringup(
  io: Io,
  name: string,
  { json = false, pickup: said }: { readonly json?: boolean; readonly pickup?: string },
): Promise<number> {
  const pickup = pickupOption(said);
  const input = await readInput(io, name);
  const { file, solution, study, findings } = judge(input.text);
  const code = exitFor({ readable: file.coil !== undefined, findings });
  const { width, colour } = io;
  const sheet = solution && study ? sheetOf({ file, solution, study, ...(pickup ? { pickup } : {}) }) : undefined;
  if (json) {
    io.out(
      `${JSON.stringify({ ...checkJson({ findings, ...(solution ? { solution } : {}), ...(study ? { study } : {}) }), ...sheet }, undefined, 2)}\n`,
    );
    return code;
  }
  if (!sheet || !file.coil) {
    io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
    return code;
  }
  io.out(bringUpText({ sheet, name: file.coil.name, fileName: input.name, width, colour }));
  return code;
}
