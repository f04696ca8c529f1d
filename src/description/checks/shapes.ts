import type { ShapeProblem } from "../../parts/index.ts";
import { surroundings, topLoadKind, topLoadProblem } from "../../parts/index.ts";
import type { Coil } from "../coil.ts";
import { type Checked, found } from "./check.ts";

/** Each part must be a shape in itself. */
export function shapesExist({ topload, primary, site }: Coil): readonly Checked[] {
  const problems: [string, ShapeProblem | undefined][] = [
    ...topload.map((load, i): [string, ShapeProblem | undefined] => [
      `topload.${i}.${topLoadKind(load)}`,
      topLoadProblem(load),
    ]),
    ...site.people.map((person, i): [string, ShapeProblem | undefined] => [
      `site.people.${i}`,
      surroundings.person.impossible?.(person),
    ]),
    ...site.objects.map((rod, i): [string, ShapeProblem | undefined] => [
      `site.objects.${i}`,
      surroundings.rod.impossible?.(rod),
    ]),
    [
      "primary.strikeRing",
      primary?.strikeRing === undefined ? undefined : surroundings.strikeRing.impossible?.(primary.strikeRing),
    ],
  ];
  return problems.flatMap(([path, problem]) =>
    problem === undefined
      ? []
      : [
          found({
            rule: "shape-impossible",
            makesNoCoil: true,
            path: `${path}.${problem.key}`,
            what: problem.what,
            expected: problem.expected,
          }),
        ],
  );
}
