/** A coil file read whole: YAML, keys, then what no coil can be. */
import { isMap, isScalar } from "yaml";
import type { Finding, Place } from "../../catalogue/finding.ts";
import { checkCoil } from "../../description/checks/index.ts";
import type { Coil } from "../../description/coil.ts";
import type { CoilFile } from "../../description/coil-file.ts";
import { type CoilByKeys, coilKey, currentFormat } from "../../description/coil-keys.ts";
import { numberOf } from "../../units/number.ts";
import { clip } from "./expectation.ts";
import { problem } from "./problem.ts";
import { openSource, type Source } from "./source.ts";
import { walkTree } from "./walk.ts";

/**
 * Reads the text of a coil file (format 1, YAML 1.2 or JSON).
 *
 * @returns the coil in SI with the provenance of each number, or no coil and the findings that say why; all problems at once, in the order
 *          of the text. Findings about a coil that was made (severity `fix`, `look`) stand beside it. Never throws.
 */
export function readCoil(text: string): CoilFile {
  const source = openSource(text);
  if ("refused" in source) return { text, provenances: new Map(), places: new Map(), findings: [source.refused] };
  const format = checkFormat(source);
  if (format?.unreadable === true)
    return { text, provenances: new Map(), places: new Map(), findings: [...source.syntax, format.finding] };

  const { value, findings, provenances, places } = walkTree(source, { root: source.document.contents, key: coilKey });
  // The walk follows the keys, so its value has the type that the keys give; that this is a `Coil` the compiler checks here.
  const made: Coil | undefined = value === undefined || source.syntax.length > 0 ? undefined : (value as CoilByKeys);
  const file: CoilFile = { text, provenances, places, findings: [] };
  const checks = made === undefined ? [] : checkCoil(made);
  const placed = checks.map(({ finding }) => ({ ...finding, place: resolvePlace(file, finding.path) }));
  const all = inOrder([...source.syntax, ...trustworthy(findings, source.brokenFrom), ...placed]);
  const impossible = checks.some(({ makesNoCoil }) => makesNoCoil);
  return { ...file, findings: all, ...(made === undefined || impossible ? {} : { coil: made }) };
}

/** Place of a dotted path in the text, or of its nearest parent that is there; the first line where nothing of it is. */
export function resolvePlace(file: Pick<CoilFile, "places" | "provenances">, path: string): Place {
  for (let at = path; at !== ""; at = at.includes(".") ? at.slice(0, at.lastIndexOf(".")) : "") {
    const place = file.places?.get(at) ?? file.provenances.get(at)?.place;
    if (place !== undefined) return { ...place, path };
  }
  return { path, line: 1, column: 1, length: 1 };
}

/**
 * The findings that a broken tree still supports: from the break on only those about single values, since keys may seem missing, unknown or
 * misplaced that are not.
 */
function trustworthy(findings: readonly Finding[], brokenFrom: number | undefined): readonly Finding[] {
  if (brokenFrom === undefined) return findings;
  const aboutShape =
    /^(missing-key|unknown-key|duplicate-key|value-missing|wrong-kind|wrong-count|not-a-key|said-twice)$/;
  return findings.filter(
    ({ rule, place }) => rule !== "missing-key" && ((place?.line ?? 0) < brokenFrom || !aboutShape.test(rule)),
  );
}

function inOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort(
    (a, b) => (a.place?.line ?? 0) - (b.place?.line ?? 0) || (a.place?.column ?? 0) - (b.place?.column ?? 0),
  );
}

/** A file of another format is not walked: its keys may mean something else. */
function checkFormat(source: Source): { readonly finding: Finding; readonly unreadable: true } | undefined {
  const root = source.document.contents;
  const unreadable = (finding: Finding) => ({ finding, unreadable: true as const });
  if (!isMap(root)) {
    if (source.syntax.length > 0) return undefined;
    const [start, end] = root?.range ?? [0, 1];
    const found =
      root === null ? "the file has no keys" : isScalar(root) ? "the file is one text" : "the file is a list";
    return unreadable(
      problem({
        rule: "not-a-coil-file",
        path: "",
        place: source.place({ path: "", start, end }),
        what: found,
        expected: "a coil; `coilwright: 1` on the first line, then its sections",
      }),
    );
  }
  const pair = root.items.find((item) => isScalar(item.key) && item.key.value === "coilwright");
  const written =
    pair !== undefined && isScalar(pair.value) && typeof pair.value.value === "string" ? pair.value : undefined;
  const format = written === undefined ? undefined : numberOf(String(written.value));
  if (written === undefined || format === undefined || !Number.isInteger(format) || format <= currentFormat)
    return undefined;
  const [start, end] = written.range ?? [0, 1];
  return unreadable(
    problem({
      rule: "format-newer",
      path: "coilwright",
      place: source.place({ path: "coilwright", start, end }),
      what: `the file is of format ${clip(String(written.value))}`,
      expected: `format ${currentFormat}, the newest this version reads; a newer version of the program reads it`,
    }),
  );
}
