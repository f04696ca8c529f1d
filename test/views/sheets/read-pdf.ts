/** A PDF read back by an independent reader: size of its pages, what is drawn in millimetres, what is written and where. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { getDocumentProxy, getResolvedPDFJS } from "unpdf";
import type { FontFiles } from "../../../src/views/sheets/index.ts";

const fontFile = (weight: number) =>
  new Uint8Array(
    readFileSync(
      fileURLToPath(
        new URL(`../../../node_modules/@fontsource/b612/files/b612-latin-${weight}-normal.woff`, import.meta.url),
      ),
    ),
  );

export const fonts: FontFiles = { regular: fontFile(400), bold: fontFile(700) };

export interface ReadPoint {
  /** [mm] from the left edge, and down from the upper edge. */
  readonly x: number;
  readonly y: number;
}

export interface ReadPath {
  /** Ends of the pieces, and three points on each curve. */
  readonly points: readonly ReadPoint[];
  readonly stroke: string | undefined;
}

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly paths: readonly ReadPath[];
  readonly texts: readonly { readonly text: string; readonly width: number; readonly x: number; readonly y: number }[];
}

const perMillimetre = 72 / 25.4;

/** Points of a path in the reader's own coding: 0 move, 1 line, 2 curve, 3 close. */
function pointsOf(data: ArrayLike<number>, place: (x: number, y: number) => ReadPoint): ReadPoint[] {
  const points: ReadPoint[] = [];
  let [px, py] = [0, 0];
  const to = (x: number, y: number) => {
    points.push(place(x, y));
    [px, py] = [x, y];
  };
  for (let n = 0; n < data.length; ) {
    const code = data[n++] as number;
    const value = (k: number) => data[n + k] as number;
    if (code === 0 || code === 1) {
      to(value(0), value(1));
      n += 2;
    } else if (code === 2) {
      const [x0, y0] = [px, py];
      for (const t of [0.25, 0.5, 0.75]) {
        const s = 1 - t;
        const at = (p0: number, k: number) =>
          s ** 3 * p0 + 3 * s * s * t * value(k) + 3 * s * t * t * value(k + 2) + t ** 3 * value(k + 4);
        points.push(place(at(x0, 0), at(y0, 1)));
      }
      to(value(4), value(5));
      n += 6;
    }
  }
  return points;
}

export async function readPdf(bytes: Uint8Array): Promise<readonly ReadPage[]> {
  const { OPS } = await getResolvedPDFJS();
  const document = await getDocumentProxy(new Uint8Array(bytes));
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const [, , width = 0, height = 0] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    const paths: ReadPath[] = [];
    let stroke: string | undefined;
    const place = (x: number, y: number): ReadPoint => ({ x: x / perMillimetre, y: (height - y) / perMillimetre });
    for (const [n, operation] of fnArray.entries()) {
      const parameters = argsArray[n] as readonly unknown[];
      if (operation === OPS.setStrokeRGBColor) stroke = String(parameters);
      if (operation !== OPS.constructPath) continue;
      const [painted, [data]] = parameters as [number, [ArrayLike<number>]];
      // a clip is no ink
      if (painted === OPS.endPath || !data) continue;
      paths.push({ points: pointsOf(data, place), stroke });
    }
    const { items } = await page.getTextContent();
    pages.push({
      width: width / perMillimetre,
      height: height / perMillimetre,
      paths,
      texts: items.flatMap((item) =>
        "str" in item && item.str.trim() !== ""
          ? [
              {
                text: item.str,
                width: item.width / perMillimetre,
                ...place(item.transform[4] as number, item.transform[5] as number),
              },
            ]
          : [],
      ),
    });
  }
  return pages;
}
