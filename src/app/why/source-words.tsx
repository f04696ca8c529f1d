/** A published source, with how far it may be trusted here. */
import { sources, standingWords } from "../../catalogue/sources.ts";

export function SourceWords({ source }: { readonly source: string }) {
  const found = sources.get(source);
  if (found === undefined) return <span>{source}</span>;
  const { author, title, year, where, standing } = found;
  return (
    <span>
      {author}
      {year !== undefined && `, ${year}`}. <cite>{title}</cite>
      {where !== undefined && `, ${where}`}. <em>{standingWords[standing]}</em>
    </span>
  );
}
