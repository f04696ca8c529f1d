/** From text to a YAML tree with positions, behind limits that keep hostile or broken texts cheap. */
import { type Document, parseAllDocuments, type YAMLError } from "yaml";
import type { Finding, Place } from "../../catalogue/finding.ts";
import { problem } from "./problem.ts";

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
  /** What the YAML parser found. Where it is not empty the tree may lack parts. */
  readonly syntax: readonly Finding[];
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
  const syntax = document.errors.slice(0, 20).map((error) => syntaxFinding(error, { text, place }));
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
  return { text, document, place, offset: (at) => lines.offset(at), syntax };
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

const plainWords: Readonly<Record<string, readonly [what: string, expected: string]>> = {
  TAB_AS_INDENT: ["this line is indented with a tab", "spaces: YAML does not take tabs as indentation"],
  BAD_INDENT: ["a bracket is not closed before this line", "a closing `}` or `]`, or a deeper indentation"],
  BAD_SCALAR_START: ["a value cannot begin with this character", "the value in quotes, or without the character"],
  BLOCK_AS_IMPLICIT_KEY: [
    "a second `:` on one line, or a line indented differently from its neighbours",
    "one `key: value` on a line, equally indented; quotes around a value that has `: ` in it",
  ],
  MULTILINE_IMPLICIT_KEY: [
    "a key runs over two lines; most often a space is missing after a `:` or the indentation changes",
    "`key: value` with a space after the colon",
  ],
  MISSING_CHAR: [
    "something is missing here: a space after `:`, or a closing quote or bracket",
    "`key: value` with a space after the colon, and every quote and bracket closed",
  ],
  UNEXPECTED_TOKEN: [
    "this does not belong here; most often the indentation changes, or a bracket or comma is left over",
    "`key: value` lines of equal indentation",
  ],
  BAD_DQ_ESCAPE: ["an unknown escape after `\\`", "single quotes around a text with backslashes"],
  BLOCK_IN_FLOW: ["a block of lines inside brackets", "`{ key: value, … }` inside brackets"],
  BAD_ALIAS: ["an alias without a name", "the value itself: a coil file has no aliases"],
  KEY_OVER_1024_CHARS: ["a key of more than 1024 characters", "one of the coil file's keys"],
  MULTIPLE_DOCS: ["a second YAML document begins here", "one coil in one file"],
  RESOURCE_EXHAUSTION: ["the text nests too deeply here", "the keys of a coil, which nest seven deep"],
};

function syntaxFinding(error: YAMLError, { text, place }: Pick<Source, "text" | "place">): Finding {
  const [start, end] = error.pos;
  const words = plainWords[error.code] ?? [
    error.message.split("\n")[0] ?? "not YAML",
    "YAML 1.2: `key: value` lines of equal indentation",
  ];
  // The parser often notices only at the line break; the eye wants the line before it.
  const at =
    text[start] === "\n" || start >= text.length ? Math.max(text.slice(0, start).trimEnd().length - 1, 0) : start;
  const line = text.slice(
    text.lastIndexOf("\n", at - 1) + 1,
    text.indexOf("\n", at) === -1 ? text.length : text.indexOf("\n", at),
  );
  const glued = /^\s*(?:- )?([A-Za-z]+):(?=[^\s])(.*)$/.exec(line.trimEnd());
  const hint =
    glued !== null && (error.code === "MISSING_CHAR" || error.code === "MULTILINE_IMPLICIT_KEY")
      ? `: write \`${glued[1]}: ${glued[2]?.trim()}\``
      : "";
  return problem({
    rule: "not-yaml",
    path: "",
    place: place({ path: "", start: at, end: Math.max(end, at + 1) }),
    what: words[0],
    expected: words[1] + hint,
  });
}
