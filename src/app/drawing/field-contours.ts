/** Contours of the newest map, worked out once a map and voltage. */
import { contourAreas, contourLines, roundLevels } from "../../views/drawing-contours.ts";
import type { FieldMap } from "../../workbench/contract.ts";

const parts = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const bands = 6;

function remembering<V>(make: (map: FieldMap, voltage: number) => V) {
  let last: { readonly map: FieldMap; readonly voltage: number; readonly value: V } | undefined;
  return (map: FieldMap, voltage: number): V => {
    if (last?.map !== map || last.voltage !== voltage) last = { map, voltage, value: make(map, voltage) };
    return last.value;
  };
}

/** Levels are round at the chosen top voltage: those are the numbers somebody reads. */
const fieldLevels = (map: FieldMap, voltage: number) =>
  roundLevels(
    map.field.map((field) => field * voltage),
    bands,
  ).map((level) => level / voltage);

export const fieldAreas = remembering((map, voltage) => contourAreas(map, map.field, fieldLevels(map, voltage)));
export const fieldLines = remembering((map, voltage) => contourLines(map, map.field, fieldLevels(map, voltage)));
export const potentialLines = remembering((map) => contourLines(map, map.potential, parts));
