/** The canonical text of a YAML tree, comments included. */
import { isScalar, Lexer, visit } from "yaml";
import { isQuantityKey, type Key, keyAt } from "../../catalogue/keys.ts";
import { coilKey } from "../../description/coil-keys.ts";
import { canonicalQuantity } from "../../units/quantity.ts";
import { splitInline } from "./inline.ts";
import type { Source } from "./source.ts";

/** Writes the tree of `source`; the source is left alone. Line breaks are those of the text. */
export function writeCanonical(source: Source): string {
  const document = source.document.clone();
  visit(document, {
    Scalar(_, node, ancestors) {
      const path = pathOf(ancestors, node);
      const key = path === undefined ? undefined : keyAt(coilKey, path);
      if (typeof node.value !== "string" || key === undefined) return;
      const spaced = canonicalValue(node.value, key);
      if (spaced !== undefined) node.value = spaced;
    },
  });
  const text = alignComments(
    document.toString({ lineWidth: 0, indent: 2, indentSeq: true, flowCollectionPadding: true, minContentWidth: 0 }),
  );
  return source.text.includes("\r\n") ? text.replaceAll(/\r?\n/g, "\r\n") : text;
}

/** A quantity, or a record of quantities on one line, in canonical spacing; undefined for everything else and for what is not read. */
function canonicalValue(text: string, key: Key): string | undefined {
  if (isQuantityKey(key)) return canonicalQuantity(text, key.dimension);
  if (key.kind !== "record" || key.inline === undefined) return undefined;
  const parts = splitInline(text, key)?.map((part) => {
    const inner = key.keys[part.name];
    return inner === undefined ? undefined : canonicalValue(part.text, inner);
  });
  return parts === undefined || parts.includes(undefined) ? undefined : parts.join(key.inline.between);
}

/** Comments after a value begin in this column, counted from 0, or three spaces after a longer value. */
const commentColumn = 35;

function alignComments(text: string): string {
  let offset = 0;
  let aligned = "";
  let copied = 0;
  for (const token of new Lexer().lex(text)) {
    // The lexer marks starts and ends with single control characters that are not in the text.
    if (/^[\u0002\u0018\u001f]$/.test(token)) continue;
    if (token.startsWith("#") && text.startsWith(token, offset)) {
      const start = text.lastIndexOf("\n", offset - 1) + 1;
      const value = text.slice(start, offset).trimEnd();
      if (value !== "") {
        aligned += `${text.slice(copied, start)}${value.padEnd(commentColumn - 1)} `;
        if (value.length >= commentColumn) aligned += "  ";
        copied = offset;
      }
    }
    offset += token.length;
  }
  return aligned + text.slice(copied);
}

/** Dotted path of a node from its ancestors; undefined for keys themselves. */
function pathOf(ancestors: readonly unknown[], node: unknown): string | undefined {
  const steps: string[] = [];
  const chain = [...ancestors, node];
  for (const [i, ancestor] of ancestors.entries()) {
    const child = chain[i + 1];
    if (typeof ancestor !== "object" || ancestor === null) continue;
    if ("key" in ancestor && "value" in ancestor) {
      if (child === ancestor.key && child !== ancestor.value) return undefined;
      if (!isScalar(ancestor.key)) return undefined;
      steps.push(String(ancestor.key.value));
    } else if ("items" in ancestor && Array.isArray(ancestor.items)) {
      const index = ancestor.items.indexOf(child);
      const isPair = typeof child === "object" && child !== null && "key" in child;
      if (!isPair && index >= 0) steps.push(String(index));
    }
  }
  return steps.join(".");
}
