/** From text to a YAML tree with positions, behind limits that keep hostile or broken texts cheap. */
import { type Document, parseAllDocuments } from "yaml";
import type { Finding, Place } from "../../catalogue/finding.ts";
import { problem } from "./problem.ts";
import { syntaxOf } from "./syntax.ts";

/** Longest text that is read, in UTF-16 units. A coil with every section and a comment on every line stays under a tenth of it. */
export const longestText = 128 * 1024;
/** Deepest nesting that is read; the coil file itself needs seven levels. */
const deepestNesting = 40;

export interface Source {
  readonly text: string;
  readonly document: Document;
  /** Place of the text from offset `start` to `end`, cut at the end of its first line, at least one character long. */
  readonly place: (span: { path: string; start: number; end: number }) => Place;
  readonly offset: (place: Pick<Place, "line" | "column">) => number;
  /** What the YAML parser found. Where it is not empty there is no coil. */
  readonly syntax: readonly Finding[];
  /** Line from which the tree may lack parts that the text has; undefined where it has them all. */
  readonly brokenFrom: number | undefined;
}

/** Opens a text; `refused` where it is not worth a walk: too long, too deep, empty. Never throws. */
export function openSource(text: string): Source | { readonly refused: Finding } {
  const lines = new Lines(text);
  const start: Place = { path: "", line: 1, column: 1, length: 1 };
  if (text.length > longestText) {
    return {
      refused: problem({
        rule: "file-too-long",
        path: "",
        place: start,
        what: `the text has ${text.length} characters`,
        expected: `a coil file of at most ${longestText} characters`,
      }),
    };
  }
  const tooDeep = firstTooDeep(text);
  if (tooDeep !== undefined) {
    return {
      refused: problem({
        rule: "file-too-deep",
        path: "",
        place: lines.place({ path: "", start: tooDeep, end: tooDeep + 1 }),
        what: `more than ${deepestNesting} brackets or lists are nested here`,
        expected: "the keys of a coil, which nest seven deep",
      }),
    };
  }
  let documents: readonly Document[];
  try {
    const parsed = parseAllDocuments(text, {
      version: "1.2",
      schema: "failsafe",
      keepSourceTokens: true,
      prettyErrors: false,
      strict: true,
      uniqueKeys: false,
      logLevel: "silent",
    });
    documents = Array.isArray(parsed) ? parsed : [];
  } catch {
    // The tree builder recurses; a text that gets past the nesting check and still exhausts it is refused as a whole.
    return {
      refused: problem({
        rule: "file-too-deep",
        path: "",
        place: start,
        what: "the text nests too deeply to be read",
        expected: "the keys of a coil, which nest seven deep",
      }),
    };
  }
  const place: Source["place"] = (span) => lines.place(span);
  const [document, second] = documents;
  if (document === undefined) {
    return {
      refused: problem({
        rule: "file-empty",
        path: "",
        place: start,
        what: "the file is empty",
        expected: "a coil; `coilwright: 1` on the first line, then its sections",
      }),
    };
  }
  const { findings, brokenFrom } = syntaxOf(document.errors, { text, place });
  const syntax = [...findings];
  if (second !== undefined) {
    const at = second.range?.[0] ?? 0;
    syntax.push(
      problem({
        rule: "second-document",
        path: "",
        place: place({ path: "", start: at, end: at + 1 }),
        what: "a second YAML document begins here",
        expected: "one coil in one file: no `---` between its parts",
      }),
    );
  }
  return { text, document, place, offset: (at) => lines.offset(at), syntax, brokenFrom };
}

/** Lines and columns of a text, counted from 1 in UTF-16 units as editors do. */
export class Lines {
  private readonly text: string;
  private readonly starts: number[] = [0];

  constructor(text: string) {
    this.text = text;
    for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) this.starts.push(at + 1);
  }

  /** Place of a span, cut at the end of its first line, at least one character long. */
  place({ path, start, end }: { path: string; start: number; end: number }): Place {
    const from = Math.max(0, Math.min(start, this.text.length));
    let [low, high] = [0, this.starts.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.starts[middle] ?? 0) <= from) low = middle;
      else high = middle - 1;
    }
    const lineEnd = (this.starts[low + 1] ?? this.text.length + 1) - 1;
    const marked = this.text.slice(from, Math.min(Math.max(end, from), lineEnd)).trimEnd();
    return { path, line: low + 1, column: from - (this.starts[low] ?? 0) + 1, length: Math.max(1, marked.length) };
  }

  /** Offset of the first character of a place. */
  offset({ line, column }: Pick<Place, "line" | "column">): number {
    return (this.starts[line - 1] ?? 0) + column - 1;
  }
}

/** Offset at which brackets, or list and key marks on one line, nest too deeply; undefined where they do not. */
function firstTooDeep(text: string): number | undefined {
  let open = 0;
  let marks = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (c === "[" || c === "{") open++;
    else if ((c === "]" || c === "}") && open > 0) open--;
    else if (c === "\n") marks = 0;
    else if ((c === "-" || c === "?" || c === ":") && (text[i + 1] === " " || text[i + 1] === "\t")) marks++;
    if (open > deepestNesting || marks > 4 * deepestNesting) return i;
  }
  return undefined;
}
