/** Text of a tune → statements, with every mistake placed. */
import { closestOf } from "../../../units/closest.ts";
import { cleanName } from "../names.ts";
import { Line } from "./line.ts";
import { type Mistakes, quoted, type Spot } from "./mistake.ts";
import type { Statement } from "./statement.ts";
import { readSteps } from "./steps.ts";

const words = ["tune", "tempo", "voice", "strength", "level", "gap", "at", "repeat", "end"] as const;
const lineExample =
  "a length with its sounds (`1/2: A4 B4`) or one of the words tune, tempo, voice, strength, level, gap, at, repeat, end";

const deepest = 8;
const mostTimes = 1000;

interface Open {
  readonly spot: Spot;
  readonly times: number;
  readonly body: Statement[];
}

/** Reads all lines; what cannot be read is left out and stands in `mistakes`. */
export function parse(text: string, mistakes: Mistakes): readonly Statement[] {
  const open: Open[] = [{ spot: { line: 1, column: 1, length: 1 }, times: 1, body: [] }];
  let begun = false;
  const lines = text.replace(/^\ufeff/, "").split(/\r\n|\r|\n/);
  for (const [index, written] of lines.entries()) {
    if (mistakes.full) break;
    const line = new Line(written, index + 1);
    if (line.done) continue;
    if (!begun && !/^tune(?=\s|$)/.test(line.rest)) {
      mistakes.add(line.spot(), {
        rule: "tune-first-line",
        what: `the first line begins with ${quoted(line.word())}`,
        expected: "`tune` and a title on the first line",
        youCan: ["write `tune My title` above it, if this is a tune", "choose another file, if it is not"],
      });
      break;
    }
    begun = true;
    readLine(line, { open, mistakes });
  }
  const root = open[0]?.body ?? [];
  for (const { spot } of open.slice(1))
    mistakes.add(spot, {
      rule: "tune-repeat",
      what: "this `repeat` has no `end`",
      expected: "`end` on a line below it",
    });
  if (!begun && !mistakes.full && mistakes.findings().length === 0)
    mistakes.add(
      { line: 1, column: 1, length: 1 },
      { rule: "tune-empty", what: "the text is empty", expected: "`tune` and a title on the first line" },
    );
  return root;
}

function readLine(line: Line, { open, mistakes }: { open: Open[]; mistakes: Mistakes }): void {
  const inner = open[open.length - 1];
  if (inner === undefined) return;
  if (/^[\d.]/.test(line.rest)) {
    const steps = readSteps(line, mistakes);
    if (steps !== undefined) inner.body.push(steps);
    return;
  }
  const spot = line.spot();
  const written = line.word();
  const word = words.find((known) => known === written);
  if (word === undefined) {
    const sounds = /^(\+|[A-G][#♯b♭]?-?\d)/.test(written);
    const near = sounds ? undefined : closestOf(written, words);
    mistakes.add(spot, {
      rule: "tune-word",
      what: `${quoted(written)} begins no line of a tune`,
      expected: lineExample,
      youCan:
        near !== undefined
          ? [`write \`${near}\``]
          : sounds
            ? [`put a length before it: \`1: ${written.slice(0, 12)}\``]
            : [],
    });
    return;
  }
  line.take(/^\S+/);
  if (word === "end") {
    if (open.length > 1) {
      open.pop();
      open[open.length - 1]?.body.push({ kind: "repeat", times: inner.times, body: inner.body });
    } else
      mistakes.add(spot, { rule: "tune-repeat", what: "this `end` ends no `repeat`", expected: "`repeat` above it" });
  } else if (word === "repeat") {
    const times = quantity(line, { word, from: 1, to: mostTimes, units: { "": 1 }, example: "repeat 2", mistakes });
    if (open.length > deepest)
      mistakes.add(spot, {
        rule: "tune-repeat",
        what: "repeats nest too deeply",
        expected: `at most ${deepest} in each other`,
      });
    // A wrong number still opens the block, so that its `end` is understood.
    open.push({ spot, times: Math.round(times ?? 1), body: [] });
  } else {
    const statement = readSetting(line, { word, mistakes });
    if (statement !== undefined) inner.body.push(statement);
  }
  if (!line.done)
    mistakes.add(line.spot(), {
      rule: "tune-word",
      what: `${quoted(line.rest)} does not belong behind \`${word}\``,
      expected: "one setting on a line; a comment begins with `# `",
    });
}

type Setting = Exclude<(typeof words)[number], "repeat" | "end">;

function readSetting(line: Line, { word, mistakes }: { word: Setting; mistakes: Mistakes }): Statement | undefined {
  if (word === "tune") return { kind: word, title: cleanName(line.take(/^.*/)?.[0] ?? "") };
  if (word === "voice") {
    const spot = line.spot();
    const name = cleanName(line.take(/^.*/)?.[0] ?? "");
    if (name !== "") return { kind: word, name };
    mistakes.add(spot, { rule: "tune-word", what: "the voice has no name", expected: "a name, such as `voice Bass`" });
    return undefined;
  }
  if (word === "tempo") {
    const value = quantity(line, { word, from: 1, to: 10_000, units: { "": 1 }, example: "tempo 96", mistakes });
    return value === undefined ? undefined : { kind: word, beat: 60 / value };
  }
  if (word === "gap" || word === "at") {
    const example = word === "gap" ? "gap 30 ms" : "at 1.5 s";
    const value = quantity(line, { word, from: 0, to: 86_400, units: { s: 1, ms: 1000 }, example, mistakes });
    return value === undefined ? undefined : { kind: word, value };
  }
  const value = quantity(line, { word, from: 0, to: 1, units: { "%": 100 }, example: `${word} 80 %`, mistakes });
  return value === undefined ? undefined : { kind: word, value };
}

interface Asked {
  readonly word: string;
  readonly from: number;
  readonly to: number;
  /** How many of the unit make one; "" where the number stands alone. */
  readonly units: Readonly<Record<string, number>>;
  readonly example: string;
  readonly mistakes: Mistakes;
}

function quantity(line: Line, { word, from, to, units, example, mistakes }: Asked): number | undefined {
  const start = line.column;
  const spot = line.spot();
  const number = line.takeNumber();
  const unit = line.take(/^[^\s\d]+/)?.[0] ?? "";
  const perOne = Object.hasOwn(units, unit) ? units[unit] : undefined;
  const value = number === undefined || perOne === undefined ? undefined : number / perOne;
  if (value !== undefined && value >= from && value <= to) return value;
  const named = Object.entries(units).map(
    ([name, of]) => `${from * of} to ${to * of}${name === "" ? "" : `\u00a0${name}`}`,
  );
  mistakes.add(line.column > start ? line.spot(start) : spot, {
    rule: "tune-number",
    what:
      number === undefined
        ? `\`${word}\` has no number`
        : perOne === undefined
          ? unit === ""
            ? `\`${word}\` has a number without a unit`
            : `${quoted(unit)} is no unit for \`${word}\``
          : `\`${word}\` is ${number}${unit === "" ? "" : `\u00a0${unit}`}`,
    expected: `${named.join(" or ")}, such as \`${example}\``,
  });
  return undefined;
}
