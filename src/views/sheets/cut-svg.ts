/** Tracks → SVG at true size, each layer a group: for cutters and for boards. */
import { mapPoints, type Page } from "./page.ts";
import { pathData, svgBeginning } from "./svg.ts";
import { tones } from "./tones.ts";
import { boundsOfTracks, type CutDrawing, type Layer, trackSegments } from "./track.ts";

const looks: Readonly<Record<Layer, string>> = {
  outline: `fill="none" stroke="${tones.ink}" stroke-width="0.1"`,
  drill: `fill="none" stroke="${tones.stop}" stroke-width="0.1"`,
  guide: `fill="none" stroke="${tones.guide}" stroke-width="0.1"`,
  "copper-upper": `fill="${tones.copper}" stroke="none"`,
  "copper-lower": `fill="${tones.steel}" fill-opacity="0.5" stroke="none"`,
};

const edge = 0.002;

/** The drawing and nothing else, one user unit to the millimetre. */
export function cutSvg({ name, tracks }: CutDrawing): string {
  const { left, right, low, high } = boundsOfTracks(tracks);
  const size: Pick<Page, "width" | "height"> = { width: right - left + 2 * edge, height: high - low + 2 * edge };
  const mm = (metre: number) => String(Number((metre * 1000).toFixed(4)));
  const layers = [...new Set(tracks.map(({ layer }) => layer))];
  const groups = layers.map((layer) => {
    const paths = tracks
      .filter((track) => track.layer === layer)
      .map((track) => {
        const segments = mapPoints(trackSegments(track), ({ x, y }) => ({ x: x - left + edge, y: y + high + edge }));
        return `<path d="${pathData(segments)}"/>`;
      });
    return `<g id="${layer}" ${looks[layer]}>\n${paths.join("\n")}\n</g>`;
  });
  return [
    svgBeginning,
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(size.width)}mm" height="${mm(size.height)}mm" viewBox="0 0 ${mm(size.width)} ${mm(size.height)}">`,
    `<title>${name.replace(/&/g, "&amp;").replace(/</g, "&lt;")}</title>`,
    ...groups,
    "</svg>",
    "",
  ].join("\n");
}
