/** What each surrounding does to f1, by leaving it out. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import type { Detuning } from "./contract.ts";
import type { FieldStage } from "./field-stage.ts";

interface Surrounding {
  readonly path: string;
  readonly says: string;
}

export function detuningsOf(coil: Coil, stage: FieldStage): Detuning[] {
  const f1 = stage.modes[0]!.frequency;
  return surroundingsOf(coil).map(({ path, says }) => ({ path, says, shift: f1 - stage.f1Without(path) }));
}

function surroundingsOf({ site, primary }: Coil): Surrounding[] {
  return [
    ...(site.wall ? [{ path: "site.wall", says: "wall" }] : []),
    ...(site.ceiling ? [{ path: "site.ceiling", says: "ceiling" }] : []),
    ...site.people.map((_, i) => ({
      path: `site.people.${i}`,
      says: site.people.length > 1 ? `person ${i + 1}` : "person",
    })),
    ...site.objects.map(({ kind }, i) => ({
      path: `site.objects.${i}`,
      says: site.objects.length > 1 ? `${kind} ${i + 1}` : kind,
    })),
    ...(primary?.strikeRing ? [{ path: "primary.strikeRing", says: "strike ring" }] : []),
    ...(primary ? [{ path: "primary", says: "primary and ring, as earthed conductors" }] : []),
  ];
}

export function detuningFigures(coil: Coil, stage: FieldStage): Figure[] {
  const { site, primary } = coil;
  const f1 = stage.modes[0]!.frequency;
  const shift = (id: string, path: string, present: boolean): Figure[] =>
    present
      ? [figure(id, f1 - stage.f1Without(path), { from: [path, "secondary.f1"], source: "boundary-elements" })]
      : [];
  return [
    ...shift("detuning.person", "site.people", site.people.length > 0),
    ...shift("detuning.wall", "site.wall", site.wall !== undefined),
    ...shift("detuning.ceiling", "site.ceiling", site.ceiling !== undefined),
    ...shift("detuning.objects", "site.objects", site.objects.length > 0),
    ...shift("detuning.strikeRing", "primary.strikeRing", primary?.strikeRing !== undefined),
  ];
}
