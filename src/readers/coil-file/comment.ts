/** A comment beside a value: at the end of its line, after what is commented there already. */
import { isMap, isSeq } from "yaml";
import { plainOf, sameTree } from "./plain.ts";
import { openSource, type Source } from "./source.ts";
import { endOf, lineEnd, nodeAt, type Step } from "./tree.ts";

/**
 * The source with the comment, or as it was where no comment can stand: in a file that is JSON, or behind a value that is not there. Where
 * several values share the line the comment begins with the name of its key.
 */
export function withComment(
  source: Source,
  { steps, comment }: { readonly steps: readonly Step[]; readonly comment: string },
): Source {
  const reached = deepest(source, steps);
  const node = nodeAt(source.document, reached);
  const words = comment.replace(/[\u0000-\u001f\u007f]+/g, " ").trim();
  if (reached.length === 0 || !node || words === "" || source.text.trimStart().startsWith("{")) return source;
  const end = endOf(node, source.text);
  const line = source.text.slice(end, lineEnd(source.text, end));
  const parent = nodeAt(source.document, reached.slice(0, -1));
  const shared = (isMap(parent) || isSeq(parent)) && parent.flow === true;
  const says = shared || reached.length < steps.length ? `${steps.at(-1)} ${words}` : words;
  const there = commentIn(source, end, line);
  const put = there === undefined ? `  # ${says}` : `; ${says}`;
  const at = end + line.trimEnd().length;
  const next = openSource(source.text.slice(0, at) + put + source.text.slice(at));
  const kept = !("refused" in next) && next.syntax.length === 0 && sameTree(plainOf(next), plainOf(source));
  return kept ? next : source;
}

/** As far as the file has the path: one that leads into a record on one line ends at that line. */
function deepest(source: Source, steps: readonly Step[]): readonly Step[] {
  let reached = steps;
  while (reached.length > 0 && !nodeAt(source.document, reached)) reached = reached.slice(0, -1);
  return reached;
}

/** Where a comment begins in the rest of a line: at the first ` #` that can be cut off with all behind it and nothing is missing. */
function commentIn(source: Source, from: number, rest: string): number | undefined {
  const before = plainOf(source);
  for (const { index } of rest.matchAll(/(?<=\s)#/g)) {
    const cut = openSource(source.text.slice(0, from + index) + source.text.slice(from + rest.length));
    if (!("refused" in cut) && cut.syntax.length === 0 && sameTree(plainOf(cut), before)) return index;
  }
  return undefined;
}
