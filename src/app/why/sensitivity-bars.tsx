/** How each number of the file moves a figure: bars to both sides of a zero line, the longest first. */

import type { Explanation } from "../../workbench/explain.ts";
import { jumpTo } from "../findings/jump.ts";

const width = 120;

interface Properties {
  readonly sensitivities: Explanation["sensitivities"];
  readonly most: number;
  readonly label: string;
}

const signed = (value: number) => `${value < 0 ? "−" : "+"}${Math.abs(value).toFixed(2)}`;

export function SensitivityBars({ sensitivities, most, label }: Properties) {
  const sorted = [...sensitivities]
    .sort((a, b) => Math.abs(b.percentPerPercent) - Math.abs(a.percentPerPercent))
    .slice(0, most);
  const greatest = Math.max(...sorted.map((one) => Math.abs(one.percentPerPercent)), 1e-9);
  return (
    <ol class="bars" aria-label={label}>
      {sorted.map(({ path, percentPerPercent }) => {
        const length = (Math.abs(percentPerPercent) / greatest) * (width / 2);
        return (
          <li key={path}>
            <button type="button" class="quiet" onClick={() => jumpTo(path)}>
              {path}
            </button>
            <svg width={width} height="14" aria-hidden="true">
              <rect
                class={percentPerPercent < 0 ? "down" : "up"}
                x={percentPerPercent < 0 ? width / 2 - length : width / 2}
                y="2"
                width={length}
                height="10"
              />
              <path d={`M${width / 2} 0V14`} />
            </svg>
            <span class="number">{signed(percentPerPercent)} %</span>
          </li>
        );
      })}
    </ol>
  );
}
