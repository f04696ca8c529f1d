/** The YAML parser's complaints in words for people, without the ones that only follow from an earlier one. */
import type { YAMLError } from "yaml";
import type { Finding } from "../../catalogue/finding.ts";
import { problem } from "./problem.ts";
import type { Source } from "./source.ts";

export interface Syntax {
  readonly findings: readonly Finding[];
  /** Line from which the tree can no longer be trusted to have the shape of the text; undefined where it can. */
  readonly brokenFrom: number | undefined;
}

interface Complaint {
  readonly what: string;
  readonly expected: string;
  /** The parser knows the shape of the text all the same: what follows is still worth reporting. */
  readonly mild?: true;
}

const complaints: Readonly<Record<string, Complaint>> = {
  TAB_AS_INDENT: {
    what: "this line is indented with a tab",
    expected: "spaces: YAML does not take tabs as indentation",
    mild: true,
  },
  BAD_SCALAR_START: {
    what: "a value cannot begin with this character",
    expected: "the value in quotes, or without the character",
    mild: true,
  },
  BAD_DQ_ESCAPE: {
    what: "an unknown escape after `\\`",
    expected: "single quotes around a text with backslashes",
    mild: true,
  },
  BAD_INDENT: { what: "this bracket is not closed before the next key", expected: "a closing `}` or `]`" },
  BLOCK_AS_IMPLICIT_KEY: {
    what: "a second `:` on one line, or a line indented differently from its neighbours",
    expected: "one `key: value` on a line, equally indented; quotes around a value that has `: ` in it",
  },
  MULTILINE_IMPLICIT_KEY: {
    what: "a key runs over two lines; most often a space is missing after a `:` or the indentation changes",
    expected: "`key: value` with a space after the colon",
  },
  MISSING_CHAR: {
    what: "something is missing here: a space after `:`, or a closing quote or bracket",
    expected: "`key: value` with a space after the colon, and every quote and bracket closed",
  },
  UNEXPECTED_TOKEN: {
    what: "this does not belong here; most often the indentation changes, or a bracket or comma is left over",
    expected: "`key: value` lines of equal indentation",
  },
  BLOCK_IN_FLOW: { what: "a block of lines inside brackets", expected: "`{ key: value, … }` inside brackets" },
  BAD_ALIAS: { what: "an alias without a name", expected: "the value itself: a coil file has no aliases" },
  KEY_OVER_1024_CHARS: { what: "a key of more than 1024 characters", expected: "one of the coil file's keys" },
  RESOURCE_EXHAUSTION: {
    what: "the text nests too deeply here",
    expected: "the keys of a coil, which nest seven deep",
  },
};

/** Every mild error up to the first that breaks the tree, and that one; what the parser says after it is mostly its echo. */
export function syntaxOf(errors: readonly YAMLError[], source: Pick<Source, "text" | "place">): Syntax {
  const findings: Finding[] = [];
  for (const error of [...errors].sort((a, b) => a.pos[0] - b.pos[0])) {
    const finding = findingOf(error, source);
    findings.push(finding);
    if (complaints[error.code]?.mild !== true)
      return { findings, brokenFrom: source.place({ path: "", start: error.pos[0], end: error.pos[1] }).line };
    if (findings.length >= 20) break;
  }
  return { findings, brokenFrom: undefined };
}

function findingOf(error: YAMLError, { text, place }: Pick<Source, "text" | "place">): Finding {
  const [start, end] = error.pos;
  const complaint = complaints[error.code] ?? {
    what: error.message.split("\n")[0] ?? "this is not YAML",
    expected: "YAML 1.2: `key: value` lines of equal indentation",
  };
  const bracket = error.code === "BAD_INDENT" ? openBracketBefore(text, start) : undefined;
  // The parser often notices only at the line break; the eye wants the line before it.
  const late = text[start] === "\n" || start >= text.length;
  const at = bracket ?? (late ? Math.max(text.slice(0, start).trimEnd().length - 1, 0) : start);
  const hint = error.code === "MISSING_CHAR" || error.code === "MULTILINE_IMPLICIT_KEY" ? gluedKey(text, at) : "";
  return problem({
    rule: "not-yaml",
    path: "",
    what: complaint.what,
    expected: complaint.expected + hint,
    place: place({ path: "", start: at, end: bracket === undefined ? Math.max(end, at + 1) : at + 1 }),
  });
}

/** The nearest bracket before `offset` that nothing closes. */
function openBracketBefore(text: string, offset: number): number | undefined {
  let closed = 0;
  for (let i = offset - 1; i >= 0; i--) {
    const c = text[i];
    if (c === "}" || c === "]") closed++;
    else if (c === "{" || c === "[") {
      if (closed === 0) return i;
      closed--;
    }
  }
  return undefined;
}

/** For a line like `turns:1100`, what to write instead. */
function gluedKey(text: string, offset: number): string {
  const start = text.lastIndexOf("\n", offset - 1) + 1;
  const end = text.indexOf("\n", offset);
  const line = text.slice(start, end === -1 ? text.length : end).trimEnd();
  const glued = /^\s*(?:- )?([A-Za-z]+):(\S.*)$/.exec(line);
  return glued === null ? "" : `: write \`${glued[1]}: ${glued[2]}\``;
}
