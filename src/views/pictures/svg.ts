/** A picture as SVG text: title, marks, caption, in either theme. */
import { escaped } from "../escaped.ts";
import { wrap } from "../text/wrap.ts";
import { type Mark, type Picture, stage, type Tone } from "./picture.ts";

export type PictureTheme = "paper" | "hall";

type Palette = Readonly<Record<Tone | "ground", string>>;

/** The same inks as the app's two themes: each reads on its ground at 4.5 : 1 or better, `hair` and `wash` aside. */
const palettes: Readonly<Record<PictureTheme, Palette>> = {
  paper: {
    ground: "#fbf9f2",
    ink: "#1b2226",
    soft: "#48535a",
    hair: "#b9b4a3",
    wash: "#f1eee3",
    electric: "#1f5fa8",
    magnetic: "#7a2f78",
    copper: "#94450f",
    warn: "#a3141a",
  },
  hall: {
    ground: "#10161a",
    ink: "#e9ece8",
    soft: "#aab6ba",
    hair: "#47545b",
    wash: "#1d272d",
    electric: "#8fc1ff",
    magnetic: "#d79ae0",
    copper: "#e8a46c",
    warn: "#ff9a91",
  },
};

export interface PictureSvgOptions {
  /** 0 to 1; the picture's still where absent. */
  readonly phase?: number;
  /** Address of the font, for a file that stands alone. */
  readonly font?: string;
}

export function pictureSvg(
  picture: Picture,
  theme: PictureTheme,
  { phase = picture.still, font }: PictureSvgOptions = {},
): string {
  const palette = palettes[theme];
  const caption = picture.caption.flatMap((sentence) => wrap(sentence, { width: 100 }).split("\n")).slice(0, 5);
  const head = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${stage.width} ${stage.height}" font-family="'B612', 'DejaVu Sans', sans-serif" role="img">`;
  return [
    head,
    `<title>${escaped(picture.title)}</title>`,
    ...(font === undefined ? [] : [`<style>@font-face{font-family:B612;src:url("${font}")}</style>`]),
    `<desc>${escaped(picture.caption.join(" "))}</desc>`,
    `<rect width="${stage.width}" height="${stage.height}" fill="${palette.ground}"/>`,
    written({ kind: "text", at: [80, 100], text: picture.title, tone: "ink", size: 46 }, palette),
    ...picture.at(phase).map((mark) => written(mark, palette)),
    ...caption.map((row, n) =>
      written({ kind: "text", at: [80, 772 + n * 30], text: row, tone: "ink", size: 24 }, palette),
    ),
    "</svg>",
  ].join("\n");
}

const digits = (value: number): string => String(Math.round(value * 100) / 100);

function written(mark: Mark, palette: Palette): string {
  const colour = palette[mark.tone];
  switch (mark.kind) {
    case "line":
      return `<polyline points="${corners(mark.points)}" fill="none" stroke="${colour}" stroke-width="${mark.width ?? 3}" stroke-linejoin="round" stroke-linecap="round"${mark.dashed ? ' stroke-dasharray="10 8"' : ""}/>`;
    case "area":
      return `<polygon points="${corners(mark.points)}" fill="${colour}"${mark.opacity === undefined ? "" : ` fill-opacity="${mark.opacity}"`}/>`;
    case "dot":
      return `<circle cx="${digits(mark.at[0])}" cy="${digits(mark.at[1])}" r="${digits(mark.radius)}" ${mark.hollow ? `fill="none" stroke="${colour}" stroke-width="4"` : `fill="${colour}"`}/>`;
    case "text":
      return `<text x="${digits(mark.at[0])}" y="${digits(mark.at[1])}" fill="${colour}" font-size="${mark.size ?? 28}"${mark.anchor === undefined || mark.anchor === "start" ? "" : ` text-anchor="${mark.anchor}"`}>${escaped(mark.text)}</text>`;
  }
}

const corners = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y]) => `${digits(x)},${digits(y)}`).join(" ");
