/** The tables of the manual, made from the keys: one a section, so that the manual cannot fall behind. */
import { dimensions } from "../units/dimension.ts";
import { isQuantityKey, type Key, type RecordKey, usualLimits } from "./keys.ts";

/** One line of the manual. */
export interface KeyRow {
  /** Dotted path; items of lists as `[]`. */
  readonly path: string;
  readonly takes: string;
  /** The default, `required`, or empty where the key may be left out. */
  readonly default: string;
  readonly says: string;
}

/** Every key below `root`, records and lists before what is in them. */
export function keyRows(root: RecordKey, path = ""): readonly KeyRow[] {
  return Object.entries(root.keys).flatMap(([name, key]) => rowsOf(key, path === "" ? name : `${path}.${name}`));
}

function rowsOf(key: Key, path: string): readonly KeyRow[] {
  const row: KeyRow = { path, takes: takesOf(key), default: defaultOf(key), says: saysOf(key) };
  if (isQuantityKey(key)) return [row];
  switch (key.kind) {
    case "record":
      return [row, ...keyRows(key, path)];
    case "list":
      return [row, ...innerRows(key.of, `${path}[]`)];
    case "oneOf":
      return [row, ...Object.entries(key.cases).flatMap(([name, inner]) => rowsOf(inner, `${path}.${name}`))];
    default:
      return [row];
  }
}

/** What is in a list's item, without a line for the item itself. */
function innerRows(key: Key, path: string): readonly KeyRow[] {
  return rowsOf(key, path).slice(isQuantityKey(key) || key.kind === "pair" ? 0 : 1);
}

function takesOf(key: Key): string {
  if (isQuantityKey(key)) {
    const usual = usualLimits[key.dimension];
    return `${dimensions[key.dimension].called.replace(/^an? /, "")}, ${key.from ?? usual.from} … ${key.to ?? usual.to}`;
  }
  switch (key.kind) {
    case "count":
      return key.only === undefined ? `whole number, ${key.from} … ${key.to}` : key.only.join(" or ");
    case "number":
      return `number, ${key.from} … ${key.to}`;
    case "text":
      return `text of at most ${key.longest} characters`;
    case "choice":
      return Object.keys(key.options)
        .map((word) => `\`${word}\``)
        .join(" or ");
    case "flag":
      return "`true` or `false`";
    case "list":
      return `list of ${key.fewest ?? 0} … ${key.most}`;
    case "pair":
      return "pair in brackets";
    case "record":
      return key.inline === undefined ? "map" : `map, or \`${key.inline.example}\``;
    case "oneOf":
      return [
        ...Object.keys(key.words ?? {}).map((word) => `\`${word}\``),
        `map with one of ${Object.keys(key.cases)
          .map((name) => `\`${name}\``)
          .join(", ")}`,
      ].join(", ");
  }
}

function defaultOf(key: Key): string {
  if ("required" in key && key.required === true) return "required";
  if (isQuantityKey(key) || key.kind === "number") {
    if (key.derived !== undefined) return `${key.derived.says} (${key.derived.origin})`;
  }
  if (!("default" in key) || key.default === undefined) return "";
  return Array.isArray(key.default) ? "empty" : String(key.default);
}

function saysOf(key: Key): string {
  if (isQuantityKey(key) || key.kind !== "choice") return key.says;
  return `${key.says}: ${Object.entries(key.options)
    .map(([word, says]) => `\`${word}\` ${says}`)
    .join("; ")}`;
}

/** The rows as a table in Markdown. */
export function keyTable(rows: readonly KeyRow[]): string {
  const cell = (text: string): string => text.replaceAll("|", "\\|");
  return [
    "| key | takes | default | what it is |",
    "| --- | --- | --- | --- |",
    ...rows.map((row) => `| \`${row.path}\` | ${cell(row.takes)} | ${cell(row.default)} | ${cell(row.says)} |`),
  ].join("\n");
}
