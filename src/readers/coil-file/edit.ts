/** Edits written back into the text of a coil file: comments, order, quotes and untouched lines stay as they are. */
import { isMap, isScalar, isSeq } from "yaml";
import type { Edit, Finding } from "../../catalogue/finding.ts";
import { isQuantityKey, type Key, keyAt } from "../../catalogue/keys.ts";
import { coilKey } from "../../description/coil-keys.ts";
import { withComment } from "./comment.ts";
import { clip } from "./expectation.ts";
import { splitInline } from "./inline.ts";
import { plainOf, plainOfValue, sameTree, withAt, withoutAt } from "./plain.ts";
import { problem } from "./problem.ts";
import { openSource, type Source } from "./source.ts";
import { removeAt, setAt } from "./splice.ts";
import { isNothing, nodeAt, pairOf, type Step, stepsOf } from "./tree.ts";

export type Edited = { readonly text: string } | { readonly findings: readonly Finding[] };

/**
 * Applies `edits` to the text, one after the other, all or none.
 *
 * A path that is missing is created, in the order of the manual; `value: undefined` removes a key or a list item; the item at a list's length
 * is appended. A text that YAML would take for something else is put in quotes. Each change is read back and compared with what was asked
 * for, so a text comes out that says exactly that, or findings do. Whether it is a coil that can be is for `readCoil` to say.
 * The comment of an edit stands at the end of its value's line, after what is commented there; a file that is JSON gets none.
 */
export function editCoil(text: string, edits: readonly Edit[]): Edited {
  let current: Source | undefined;
  for (const edit of edits) {
    const source = current ?? openSource(text);
    if ("refused" in source) return { findings: [source.refused] };
    if (source.syntax.length > 0) return { findings: source.syntax };
    const done = editOnce(source, edit);
    if ("findings" in done) return done;
    current = done.source;
  }
  return { text: current?.text ?? text };
}

/** A change at a path whose parent is there: what the text becomes, and what the plain tree must become. */
type Change =
  | { readonly kind: "set"; readonly steps: readonly Step[]; readonly value: string }
  | { readonly kind: "remove"; readonly steps: readonly Step[] };

function editOnce(source: Source, edit: Edit): { readonly source: Source } | { readonly findings: readonly Finding[] } {
  const changes =
    edit.value === undefined
      ? planRemoval(source, edit.path)
      : planSetting(source, { path: edit.path, value: edit.value });
  if ("finding" in changes) return { findings: [changes.finding] };
  let current = source;
  for (const change of changes.list) {
    const next = applyChange(current, change);
    if (next === undefined) {
      return {
        findings: [
          refusal(source, edit, `the file's layout at \`${edit.path}\` does not take this change`, "an edit by hand"),
        ],
      };
    }
    current = next;
  }
  const { comment } = edit;
  if (comment === undefined || edit.value === undefined) return { source: current };
  return { source: withComment(current, { steps: stepsOf(edit.path), comment }) };
}

type Plan = { readonly list: readonly Change[] } | { readonly finding: Finding };

function planRemoval(source: Source, path: string): Plan {
  const steps = stepsOf(path);
  if (steps.length > 0 && nodeAt(source.document, steps) !== undefined) return { list: [{ kind: "remove", steps }] };
  const also = alsoFor(source, steps);
  if (also !== undefined) return { list: [{ kind: "remove", steps: also.steps }] };
  if (steps.length > 0 && keyAt(coilKey, path) !== undefined && !isInsideLine(source, steps)) return { list: [] };
  return {
    finding: refusal(
      source,
      { path, value: undefined },
      `there is no \`${clip(path)}\` to remove`,
      "a key or list item of the file",
    ),
  };
}

function planSetting(source: Source, { path, value }: { path: string; value: string }): Plan {
  const steps = stepsOf(path);
  const key = keyAt(coilKey, path);
  if (key === undefined || steps.length === 0) {
    return {
      finding: refusal(
        source,
        { path, value },
        `\`${clip(path)}\` is not a key of a coil file`,
        "a dotted path such as `secondary.length` or `topload.0.toroid.height`",
      ),
    };
  }
  const written = oneLine(value, key);
  if (written === undefined) {
    return {
      finding: refusal(
        source,
        { path, value },
        `\`${clip(value)}\` is not one value on one line`,
        "a quantity, a word, or `{ key: value }` in braces",
      ),
    };
  }
  const also = alsoFor(source, steps);
  if (also !== undefined) {
    if (also.rest.length === 0) return { list: [{ kind: "set", steps: also.steps, value: written }] };
    return {
      list: [
        { kind: "remove", steps: also.steps },
        { kind: "set", steps, value: written },
      ],
    };
  }
  return planFrom(source, { steps, value: written, path });
}

/** Follows the path as far as the file has it, and says what to write there. */
function planFrom(
  source: Source,
  { steps, value, path }: { steps: readonly Step[]; value: string; path: string },
): Plan {
  for (let depth = 0; depth < steps.length; depth++) {
    const reached = steps.slice(0, depth);
    const node = nodeAt(source.document, reached);
    const key = keyAt(coilKey, reached.join("."));
    const step = steps[depth] ?? "";
    const nested = nest(steps.slice(depth), value);
    if (isMap(node)) {
      const other =
        key !== undefined &&
        !isQuantityKey(key) &&
        key.kind === "oneOf" &&
        pairOf(node, step) === undefined &&
        node.items.length > 0;
      if (other) return { list: [{ kind: "set", steps: reached, value: nested }] };
      if (pairOf(node, step) === undefined)
        return {
          list: [{ kind: "set", steps: steps.slice(0, depth + 1), value: nest(steps.slice(depth + 1), value) }],
        };
    } else if (isSeq(node)) {
      const index = Number(step);
      if (index > node.items.length) {
        return {
          finding: refusal(
            source,
            { path, value },
            `the list \`${reached.join(".")}\` has ${node.items.length} items`,
            `an item from 0 to ${node.items.length}, the last of which is appended`,
          ),
        };
      }
      if (index === node.items.length)
        return {
          list: [{ kind: "set", steps: steps.slice(0, depth + 1), value: nest(steps.slice(depth + 1), value) }],
        };
    } else if (isScalar(node) && !isNothing(node)) {
      return planInLine(source, { reached, rest: steps.slice(depth), value, line: String(node.value), key, path });
    } else {
      return { list: [{ kind: "set", steps: reached, value: nested }] };
    }
  }
  return { list: [{ kind: "set", steps, value }] };
}

/** The path leads into a record that stands on one line (`wire: AWG 28`), or past a word (`sense: primaryCurrent`). */
function planInLine(
  source: Source,
  {
    reached,
    rest,
    value,
    line,
    key,
    path,
  }: {
    reached: readonly Step[];
    rest: readonly Step[];
    value: string;
    line: string;
    key: Key | undefined;
    path: string;
  },
): Plan {
  const name = rest[0] ?? "";
  const set = (text: string): Plan => ({ list: [{ kind: "set", steps: reached, value: text }] });
  if (
    key !== undefined &&
    !isQuantityKey(key) &&
    key.kind === "record" &&
    key.inline !== undefined &&
    rest.length === 1
  ) {
    const parts = splitInline(line, key);
    if (parts !== undefined) {
      const texts = new Map(parts.map((part) => [part.name, part.text]));
      texts.set(name, value);
      if (key.inline.order.includes(name))
        return set(key.inline.order.map((each) => texts.get(each) ?? "").join(key.inline.between));
      return set(`{ ${[...texts].map(([each, text]) => `${each}: ${text}`).join(", ")} }`);
    }
  }
  if (key !== undefined && !isQuantityKey(key) && key.kind === "oneOf") return set(nest(rest, value));
  return {
    finding: refusal(
      source,
      { path, value },
      `\`${reached.join(".")}\` is the single value \`${clip(line)}\``,
      `a map with the key \`${name}\` there`,
    ),
  };
}

/** Where a record has a second spelling of the key that the path asks for, and the file uses it. */
function alsoFor(
  source: Source,
  steps: readonly Step[],
): { readonly steps: readonly Step[]; readonly rest: readonly Step[] } | undefined {
  for (let depth = 0; depth < steps.length; depth++) {
    const record = keyAt(coilKey, steps.slice(0, depth).join("."));
    if (record === undefined || isQuantityKey(record) || record.kind !== "record" || record.also === undefined)
      continue;
    for (const [also, into] of Object.entries(record.also)) {
      if (into !== steps[depth]) continue;
      const there = [...steps.slice(0, depth), also];
      if (nodeAt(source.document, there) === undefined) continue;
      const rest = steps.slice(depth + 1);
      return { steps: there, rest: rest[0] === also ? rest.slice(1) : ["replaced"] };
    }
  }
  return undefined;
}

function isInsideLine(source: Source, steps: readonly Step[]): boolean {
  return steps.some((_, depth) => {
    const node = nodeAt(source.document, steps.slice(0, depth + 1));
    return depth < steps.length - 1 && isScalar(node) && !isNothing(node);
  });
}

/** `["strikeRing", "height"]`, `200 mm` → `{ strikeRing: { height: 200 mm } }`; a number makes a list of one. */
function nest(steps: readonly Step[], value: string): string {
  return steps.reduceRight((inner, step) => (/^\d+$/.test(step) ? `[ ${inner} ]` : `{ ${step}: ${inner} }`), value);
}

/** The value as one line of YAML that stands anywhere, braces included; undefined where it cannot. */
function oneLine(value: string, key: Key): string | undefined {
  const text = value.trim();
  if (text === "" || /[\u0000-\u001f\u007f]/.test(text)) return undefined;
  const single = isQuantityKey(key) || ["count", "number", "text", "choice", "flag"].includes(key.kind);
  const inBraces = openSource(`{ key: ${text} }`);
  const asItIs = "refused" in inBraces || inBraces.syntax.length > 0 ? undefined : nodeAt(inBraces.document, ["key"]);
  const whole =
    !("refused" in inBraces) && isMap(inBraces.document.contents) && inBraces.document.contents.items.length === 1;
  const plain = isScalar(asItIs) && whole && (asItIs.type !== "PLAIN" || asItIs.value === text);
  if (plain || (!single && whole && (isMap(asItIs) || isSeq(asItIs)))) return text;
  return single ? JSON.stringify(text) : undefined;
}

/** The source after a change, or undefined where what is read back is not what was asked for. */
function applyChange(source: Source, change: Change): Source | undefined {
  const before = plainOf(source);
  const next =
    change.kind === "remove"
      ? removeAt(source, change.steps)
      : setAt(source, { steps: change.steps, value: change.value, order: orderAt(change.steps) });
  if (next === undefined) return undefined;
  const after = openSource(next);
  if ("refused" in after || after.syntax.length > 0) return undefined;
  const wanted =
    change.kind === "remove"
      ? withoutAt(before, change.steps)
      : withAt(before, { steps: change.steps, value: plainOfValue(change.value) });
  return sameTree(plainOf(after), wanted) ? after : undefined;
}

/** The keys of the record that the last step belongs to, in the order of the manual. */
function orderAt(steps: readonly Step[]): readonly string[] {
  const record = keyAt(coilKey, steps.slice(0, -1).join("."));
  return record === undefined || isQuantityKey(record) || record.kind !== "record" ? [] : Object.keys(record.keys);
}

function refusal(source: Source, edit: Edit, what: string, expected: string): Finding {
  let steps = stepsOf(edit.path);
  while (steps.length > 0 && nodeAt(source.document, steps) === undefined) steps = steps.slice(0, -1);
  const node = nodeAt(source.document, steps);
  const [start, end] = node?.range ?? [0, 1];
  return problem({
    rule: "cannot-edit",
    path: edit.path,
    place: source.place({ path: edit.path, start, end }),
    what,
    expected,
  });
}
