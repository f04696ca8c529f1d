/** What the file does not say about room and people, and so what is not known. Nothing here is filled in quietly. */
import type { Coil } from "../description/coil.ts";
import type { StandoffBursts } from "./standoff-contract.ts";

interface Missing {
  readonly path: string;
  readonly says: string;
}

export function missingForStandoff(
  { show, site, supply, interrupter }: Coil,
  { study }: StandoffBursts,
  { computed, duration }: { computed: boolean; duration: number | undefined },
): readonly Missing[] {
  const unless = (there: unknown, path: string, says: string): readonly Missing[] =>
    there === undefined || there === false ? [{ path, says }] : [];
  return [
    ...(computed
      ? []
      : [
          { path: "", says: "no reach can be computed, and so no line: nobody but the operator in the room" },
          ...study.missing,
        ]),
    ...unless(
      interrupter?.limits,
      "interrupter.limits",
      "a stuck control has no bound: reach and line are of the setting alone",
    ),
    ...unless(
      supply?.capacitors.bleeder,
      "supply.capacitors.bleeder",
      "no bleeder: the bus stays charged for days, and no waiting time can be told",
    ),
    ...unless(site.people.length > 0, "site.people", "nobody is listed in the room: nobody's distance is judged"),
    ...unless(site.ceiling, "site.ceiling", "no ceiling: whether the arc reaches it is not judged"),
    ...unless(show?.earth, "show.earth", "no earth rod of its own: where the spark's current goes is not known"),
    ...unless(show?.breaker, "show.breaker", "no breaker or plug: whether it is in somebody's reach is not judged"),
    ...unless(show?.deadMan, "show.deadMan", "no stop that cuts the coil when it is let go"),
    ...unless(show?.operator, "show.operator", "no operator: nobody holds the stop"),
    ...unless(show?.second, "show.second", "no second person: nobody is at the plug"),
    ...unless(show?.exit, "show.exit", "no way out is shown"),
    ...unless(show?.barrier, "show.barrier", "no barrier: nothing holds bystanders at the line"),
    ...unless(duration, "show.duration", "no length of the show: the dose of noise does not enter the line"),
    ...unless(
      show?.room,
      "show.room",
      "no room: whether the line fits into it is not judged, and how ozone and nitrogen oxides leave is not known",
    ),
  ];
}
