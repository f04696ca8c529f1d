/** One dimension on the drawing: witness lines, arrowheads and words that can be pressed, typed over and nudged. */
import type { Provenance } from "../../description/provenance.ts";
import type { PagePoint, PlacedDimension } from "../../views/drawing-layout.ts";
import { editing } from "../state/view.ts";
import { dimensionKey } from "./change-dimension.ts";
import { originWords } from "./origin-words.ts";
import { spokenValue } from "./spoken-value.ts";

const Arrow = ({ at, degrees }: { readonly at: PagePoint; readonly degrees: number }) => (
  <path class="arrow" d="M0 0L-9 -2.6L-9 2.6Z" transform={`translate(${at.x} ${at.y}) rotate(${degrees})`} />
);

const lineText = (lines: PlacedDimension["lines"]) =>
  lines.map(([a, b]) => `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}`).join("");

interface Properties {
  readonly placed: PlacedDimension;
  readonly provenance: Provenance | undefined;
  readonly onFocus: (path: string | undefined) => void;
}

export function DimensionMark({ placed, provenance, onFocus }: Properties) {
  const { dimension, box, textAt, turned, anchor, lines, arrows, text } = placed;
  const { path, says } = dimension;
  const origin = originWords(provenance);
  return (
    <g class="dimension" data-origin={provenance?.origin} data-kind={dimension.kind}>
      <path class="witness" d={lineText(lines)} />
      {arrows.map((arrow) => (
        <Arrow key={`${arrow.at.x} ${arrow.at.y}`} {...arrow} />
      ))}
      <g
        class="words"
        role="spinbutton"
        tabindex={0}
        data-path={path}
        aria-label={says}
        aria-valuenow={spokenValue(dimension)}
        aria-valuetext={origin === "" ? text : `${text}, ${origin}`}
        aria-describedby="dimension-keys"
        onClick={() => {
          editing.value = path;
        }}
        onKeyDown={(event) => dimensionKey(dimension, event)}
        onFocus={() => onFocus(path)}
        onBlur={() => onFocus(undefined)}
      >
        <title>{`${says}: ${text}${origin === "" ? "" : ` (${origin})`}`}</title>
        <rect class="press" x={box.x} y={box.y} width={box.width} height={box.height} rx={2} />
        <text
          x={textAt.x}
          y={textAt.y}
          text-anchor={anchor}
          transform={turned === 0 ? undefined : `rotate(${turned} ${textAt.x} ${textAt.y})`}
        >
          {text}
        </text>
      </g>
    </g>
  );
}
