/** One number of a coil by its path in the file: `topload.0.toroid.height`. */
import type { Coil } from "../description/coil.ts";

type Branch = { readonly [key: string]: unknown };

const isBranch = (value: unknown): value is Branch => typeof value === "object" && value !== null;

/** The number at a path, or undefined where there is none. */
export function numberAt(coil: Coil, path: string): number | undefined {
  let at: unknown = coil;
  for (const key of path.split(".")) at = isBranch(at) ? at[key] : undefined;
  return typeof at === "number" ? at : undefined;
}

/** The same coil with another number at a path that has one. */
export function withNumber(coil: Coil, path: string, value: number): Coil {
  return replaced(coil, path.split("."), value) as Coil;
}

function replaced(at: unknown, [key, ...rest]: readonly string[], value: number): unknown {
  if (key === undefined) return value;
  if (!isBranch(at)) return at;
  const child = replaced(at[key], rest, value);
  return Array.isArray(at) ? at.map((item, i) => (String(i) === key ? child : item)) : { ...at, [key]: child };
}
