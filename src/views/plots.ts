/** A plot as plain data: lines and ticks in page units, ready to become SVG on a screen or a sheet. */
import { ticks } from "./plots-ticks.ts";

export interface PlotLine {
  readonly id: string;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

export interface PlotRequest {
  readonly width: number;
  readonly height: number;
  /** Room for tick labels around the field of the plot. */
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly lines: readonly PlotLine[];
  /** Limits; what the lines span where absent. */
  readonly xLimits?: readonly [number, number];
  readonly yLimits?: readonly [number, number];
  readonly xTicks: number;
  readonly yTicks: number;
}

export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly toPage: (value: number) => number;
  readonly fromPage: (position: number) => number;
  readonly ticks: readonly number[];
}

export interface Plot {
  readonly x: Scale;
  readonly y: Scale;
  readonly lines: readonly { readonly id: string; readonly path: string }[];
}

function spanOf(lists: readonly ArrayLike<number>[], margin: number): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const list of lists) {
    for (let i = 0; i < list.length; i++) {
      const value = list[i] as number;
      if (!Number.isFinite(value)) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  if (!(high >= low)) return [0, 1];
  const pad = high > low ? (high - low) * margin : Math.abs(high) * 0.1 || 1;
  return [low - pad, high + pad];
}

function scaleOf([low, high]: readonly [number, number], start: number, end: number, wanted: number): Scale {
  const perUnit = (end - start) / (high - low);
  return {
    low,
    high,
    toPage: (value) => start + (value - low) * perUnit,
    fromPage: (position) => low + (position - start) / perUnit,
    ticks: ticks({ low, high, wanted }),
  };
}

/** Lays out a plot. Points that are not finite break their line. */
export function layPlot({ width, height, margin, lines, xLimits, yLimits, xTicks, yTicks }: PlotRequest): Plot {
  const x = scaleOf(
    xLimits ??
      spanOf(
        lines.map((l) => l.x),
        0,
      ),
    margin.left,
    width - margin.right,
    xTicks,
  );
  const y = scaleOf(
    yLimits ??
      spanOf(
        lines.map((l) => l.y),
        0.06,
      ),
    height - margin.bottom,
    margin.top,
    yTicks,
  );
  return {
    x,
    y,
    lines: lines.map((line) => ({ id: line.id, path: linePath(line, x, y) })),
  };
}

function linePath(line: PlotLine, x: Scale, y: Scale): string {
  let path = "";
  let drawing = false;
  for (let i = 0; i < Math.min(line.x.length, line.y.length); i++) {
    const px = x.toPage(line.x[i] as number);
    const py = y.toPage(line.y[i] as number);
    if (!Number.isFinite(px) || !Number.isFinite(py)) {
      drawing = false;
      continue;
    }
    path += `${drawing ? "L" : "M"}${px.toFixed(1)} ${py.toFixed(1)}`;
    drawing = true;
  }
  return path;
}

/** The value of a line at `at`, straight between its points; undefined outside them. `line.x` ascends. */
export function valueAt({ x, y }: Pick<PlotLine, "x" | "y">, at: number): number | undefined {
  const n = Math.min(x.length, y.length);
  for (let i = 1; i < n; i++) {
    const left = x[i - 1] as number;
    const right = x[i] as number;
    if (at < left || at > right) continue;
    const share = right > left ? (at - left) / (right - left) : 0;
    return (y[i - 1] as number) * (1 - share) + (y[i] as number) * share;
  }
  return undefined;
}
