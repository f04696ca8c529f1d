/** Brings a dimension that somebody jumped to into sight and into the focus. */
import { useEffect } from "preact/hooks";
import type { Dimension, Drawing } from "../../views/drawing.ts";
import type { LayoutStyle } from "../../views/drawing-layout.ts";
import { sought } from "../state/view.ts";
import { type CameraHolder, fitTo } from "./camera.ts";

const elementOf = (path: string) => document.querySelector<SVGElement>(`[data-path="${path}"]`);

export const focusOn = (path: string) => elementOf(path)?.focus();

/** The dimension that a path of the file means: itself, or the first one inside it. */
const meant = (dimensions: readonly Dimension[], path: string) =>
  dimensions.find((one) => one.path === path) ?? dimensions.find((one) => one.path.startsWith(`${path}.`));

export function useSeeking(holder: CameraHolder, drawing: Drawing | undefined, style: LayoutStyle): void {
  const wanted = sought.value;
  // not when the page changes its size
  useEffect(() => {
    if (wanted === undefined || drawing === undefined) return;
    const dimension = meant(drawing.dimensions, wanted.path);
    if (dimension === undefined) return;
    if (elementOf(dimension.path) === null) fitTo(holder, dimension.group, drawing, style);
    const timer = setTimeout(() => {
      focusOn(dimension.path);
      sought.value = undefined;
    });
    return () => clearTimeout(timer);
  }, [wanted, drawing]);
}
