/** A page → SVG at true size. */
import { settable, widthOf } from "./measure.ts";
import type { Item, Page, PathItem, Segment, TextItem } from "./page.ts";
import { tones } from "./tones.ts";

const mm = (metre: number): string => {
  const text = (metre * 1000).toFixed(4).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
};
const escaped = (text: string) =>
  text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");

/** By which a sheet of the house is known. */
export const svgBeginning = "<!-- Coilwright papers -->";

/** One user unit is one millimetre. Words take the width that they were measured at, whichever font the reader has. */
export function svgOf(page: Page): string {
  const clips = page.items.flatMap((item, n) => (item.kind === "path" && item.clip ? [{ n, box: item.clip }] : []));
  return [
    svgBeginning,
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(page.width)}mm" height="${mm(page.height)}mm" viewBox="0 0 ${mm(page.width)} ${mm(page.height)}">`,
    `<title>${escaped(page.title)}</title>`,
    `<rect width="100%" height="100%" fill="${tones.paper}"/>`,
    ...clips.map(
      ({ n, box }) =>
        `<clipPath id="c${n}"><rect x="${mm(box.x)}" y="${mm(box.y)}" width="${mm(box.width)}" height="${mm(box.height)}"/></clipPath>`,
    ),
    `<g font-family="B612, 'DejaVu Sans', Verdana, sans-serif" stroke-linecap="round" stroke-linejoin="round">`,
    ...page.items.map((item, n) => itemOf(item, n)),
    "</g>",
    "</svg>",
    "",
  ].join("\n");
}

const itemOf = (item: Item, n: number) => (item.kind === "text" ? textOf(item) : pathOf(item, n));

/** SVG path data in millimetres. */
export const pathData = (segments: readonly Segment[]): string => segments.map(commandOf).join("");

function commandOf(segment: Segment): string {
  if (segment.kind === "close") return "Z";
  const to = `${mm(segment.to.x)} ${mm(segment.to.y)}`;
  if (segment.kind === "move") return `M${to}`;
  if (segment.kind === "line") return `L${to}`;
  const { first, second } = segment;
  return `C${mm(first.x)} ${mm(first.y)} ${mm(second.x)} ${mm(second.y)} ${to}`;
}

function pathOf({ segments, width, tone = "ink", fill, dash, clip }: PathItem, n: number): string {
  const stroke = width === undefined ? "" : ` stroke="${tones[tone]}" stroke-width="${mm(width)}"`;
  const dashes = dash ? ` stroke-dasharray="${dash.map(mm).join(" ")}" stroke-linecap="butt"` : "";
  const within = clip ? ` clip-path="url(#c${n})"` : "";
  return `<path d="${pathData(segments)}" fill="${fill ? tones[fill] : "none"}"${stroke}${dashes}${within}/>`;
}

function textOf({ text, x, y, size, face, tone, anchor, upright }: TextItem): string {
  const shown = settable(text);
  const weight = face === "bold" ? ' font-weight="700"' : "";
  const turned = upright ? ` transform="rotate(-90 ${mm(x)} ${mm(y)})"` : "";
  const width =
    [...shown].length > 1 ? ` textLength="${mm(widthOf(shown, { size, face }))}" lengthAdjust="spacingAndGlyphs"` : "";
  return `<text x="${mm(x)}" y="${mm(y)}" font-size="${mm(size)}" fill="${tones[tone]}" text-anchor="${anchor}"${weight}${width}${turned}>${escaped(shown)}</text>`;
}
