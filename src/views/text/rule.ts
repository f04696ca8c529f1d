/** The page that answers "why this finding?". */
import type { Finding } from "../../catalogue/finding.ts";
import { sources, standingWords } from "../../catalogue/sources.ts";
import type { BenchRule } from "../../findings/bench-rules.ts";
import { painter } from "./paint.ts";
import { padded, wrap } from "./wrap.ts";

const labelWidth = 13;

export interface ExplainedRule {
  readonly id: string;
  readonly says: string;
  /** Figures without which it has nothing to say. */
  readonly needs: readonly string[];
  readonly source: string;
  /** How far the source may be trusted, in words. */
  readonly mark: string;
}

/** What a rule looks for and what it rests on, as plain data. */
export function explainRule({ id, says, needs, source }: BenchRule): ExplainedRule {
  const found = sources.get(source);
  return {
    id,
    says,
    needs,
    source: found === undefined ? source : `${found.author}: ${found.title}`,
    mark: found === undefined ? "" : standingWords[found.standing],
  };
}

/** A page for one rule, with what it found in this coil. */
export function ruleText(rule: BenchRule, findings: readonly Finding[], { width = 80, colour = false } = {}): string {
  const paint = painter(colour);
  const { id, says, needs, source, mark } = explainRule(rule);
  const labelled = (label: string, words: string) =>
    wrap(words, { width, first: padded(label, labelWidth), indent: " ".repeat(labelWidth) });
  return `${[
    paint("bold", id),
    labelled("looks for", says),
    ...(needs.length > 0 ? [labelled("by", needs.join(", "))] : []),
    labelled("rests on", source),
    labelled("", mark),
    ...(findings.length === 0 ? [labelled("found here", "nothing")] : []),
    ...findings.flatMap(({ what, expected, evidence }) => [
      labelled("found here", what),
      ...(expected === undefined ? [] : [labelled("expected", expected)]),
      labelled("evidence", evidence.join(", ")),
    ]),
  ].join("\n")}\n`;
}
