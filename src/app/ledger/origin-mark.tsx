/** Where a number comes from, by shape and letter: square M measured, diamond S datasheet, circle D drawn, triangle G guessed. */
import type { Origin } from "../../description/provenance.ts";

const marks: Readonly<Record<Origin, { readonly letter: string; readonly shape: string; readonly drop: number }>> = {
  measured: { letter: "M", shape: "M2 2H18V18H2Z", drop: 13.8 },
  datasheet: { letter: "S", shape: "M10 0.5L19.5 10L10 19.5L0.5 10Z", drop: 13.8 },
  drawn: { letter: "D", shape: "M10 1A9 9 0 0 1 10 19A9 9 0 0 1 10 1Z", drop: 13.8 },
  guessed: { letter: "G", shape: "M10 0.5L20 18.5H0Z", drop: 16 },
};

export const originSays: Readonly<Record<Origin, string>> = {
  measured: "measured",
  datasheet: "from a datasheet",
  drawn: "drawn",
  guessed: "guessed",
};

export function OriginMark({ origin }: { readonly origin: Origin }) {
  const { letter, shape, drop } = marks[origin];
  return (
    <svg class={`origin ${origin}`} width="20" height="20" role="img" aria-label={originSays[origin]}>
      <title>{originSays[origin]}</title>
      <path d={shape} />
      <text x="10" y={drop} text-anchor="middle">
        {letter}
      </text>
    </svg>
  );
}
