/** A key that is not known: what was probably meant, or where it belongs. */
import { isMap, isSeq, type Node } from "yaml";
import type { Remedy } from "../../catalogue/finding.ts";
import { closestOf } from "../../units/closest.ts";
import type { Entry } from "./content.ts";
import { clip, homesOf } from "./expectation.ts";
import type { Notes } from "./notes.ts";

/**
 * Reports the key of `entry`, which `path` does not have.
 *
 * @param known     keys that could have been meant: those that are not there yet
 * @param expected  what the place takes, in words
 * @returns         the known key that was probably meant
 */
export function refuseUnknownKey(
  entry: Entry,
  {
    path,
    known,
    expected,
    notes,
    text,
  }: { path: string; known: readonly string[]; expected: string; notes: Notes; text: string },
): string | undefined {
  if (notes.full) return undefined;
  const name = entry.name.text;
  const at = path === "" ? name : `${path}.${name}`;
  if (entry.afterNumber !== undefined && /^\d/.test(name)) {
    notes.refuse(at, entry.name, {
      rule: "decimal-comma",
      what: `\`${clip(name)}\` stands alone between commas; inside braces a comma separates keys`,
      expected: `a decimal point: \`${entry.afterNumber}.${clip(name)}\``,
    });
    return undefined;
  }
  const glued = /^([A-Za-z]+):(\S.*)$/.exec(name);
  if (glued !== null && known.includes(glued[1] ?? "")) {
    notes.refuse(at, entry.name, {
      rule: "unknown-key",
      what: `\`${clip(name)}\` has no space after its colon`,
      expected: `\`${glued[1]}: ${clip(glued[2] ?? "")}\``,
    });
    return glued[1];
  }
  const near = closestOf(name, known);
  const homes =
    near === undefined
      ? homesOf(name)
          .filter((home) => home !== path)
          .slice(0, 3)
      : [];
  const elsewhere =
    homes.length === 0 ? "" : `; \`${name}\` is a key of ${homes.map((home) => `\`${home}\``).join(", ")}`;
  notes.refuse(at, entry.name, {
    rule: "unknown-key",
    what: `\`${clip(name)}\` is not a key ${path === "" ? "of a coil file" : `of \`${path}\``}`,
    expected: (near === undefined ? expected : `\`${near}\`, or ${expected}`) + elsewhere,
    remedies:
      near === undefined
        ? []
        : renaming({ from: at, to: path === "" ? near : `${path}.${near}`, value: oneLineOf(entry.value, text) }),
  });
  return near;
}

function renaming({ from, to, value }: { from: string; to: string; value: string | undefined }): readonly Remedy[] {
  const name = to.slice(to.lastIndexOf(".") + 1);
  // A path cannot hold a key with a dot in it, and a block of lines cannot be moved as one value.
  const movable = value !== undefined && from.split(".").length === to.split(".").length;
  return movable
    ? [
        {
          says: `${name}: ${clip(value)}`,
          edits: [
            { path: from, value: undefined },
            { path: to, value },
          ],
        },
      ]
    : [];
}

/** The text of a value that can be moved elsewhere as it stands. */
function oneLineOf(node: unknown, text: string): string | undefined {
  const range = (node as Node | null)?.range;
  if (range === undefined || range === null || ((isMap(node) || isSeq(node)) && node.flow !== true)) return undefined;
  const value = text.slice(range[0], range[1]).trim();
  return value === "" || value.includes("\n") ? undefined : value;
}
