/** Pages → PDF 1.7 (ISO 32000-1): paths as they are, words in the fonts given and in signs drawn by the house. */
import { joinedBytes } from "../../workbench/joined-bytes.ts";
import { drawnSigns, penWidth } from "./drawn-signs.ts";
import { settable, widthOf } from "./measure.ts";
import type { Box, Face, Item, Page, PathItem, Segment, TextItem, Tone } from "./page.ts";
import { segmentsOf } from "./svg-path.ts";
import { tones } from "./tones.ts";
import { openWoff, type SheetFont, through } from "./woff.ts";

/** The two fonts of the sheets, as WOFF files. */
export type FontFiles = Readonly<Record<Face, Uint8Array>>;

/** By which a PDF of the house is known. */
export const pdfBeginning = "%PDF-1.7\n% Coilwright papers\n";

/** Points of PDF in a metre: 72 in an inch. */
const pointsPerMetre = 72 / 0.0254;
const faces: readonly Face[] = ["regular", "bold"];
const signs = Object.keys(drawnSigns);

const number = (value: number): string => {
  const text = value.toFixed(4).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
};
const points = (metre: number) => number(metre * pointsPerMetre);

/**
 * Writes pages as one PDF, at true size.
 *
 * @param date  of the document, as it stands in its properties; nothing here reads a clock
 */
export async function pdfOf(
  pages: readonly Page[],
  { fonts, title, date }: { fonts: FontFiles; title: string; date: Date },
): Promise<Uint8Array> {
  const open = { regular: await openWoff(fonts.regular), bold: await openWoff(fonts.bold) };
  const file = new PdfFile();
  const [catalogue, tree, info] = [file.reserve(), file.reserve(), file.reserve()];
  const references: string[] = [];
  for (const face of faces) {
    references.push(`/F${face} ${await addFont(file, face, open[face])} 0 R`);
    references.push(`/S${face} ${await addSigns(file, face)} 0 R`);
  }
  const resources = file.add(`<< /Font << ${references.join(" ")} >> >>`);
  const kids: number[] = [];
  for (const page of pages) {
    const content = await file.addStream(contentOf(page, open), "");
    const box = `[0 0 ${points(page.width)} ${points(page.height)}]`;
    kids.push(
      file.add(
        `<< /Type /Page /Parent ${tree} 0 R /MediaBox ${box} /Resources ${resources} 0 R /Contents ${content} 0 R >>`,
      ),
    );
  }
  file.set(tree, `<< /Type /Pages /Count ${kids.length} /Kids [${kids.map((kid) => `${kid} 0 R`).join(" ")}] >>`);
  // a printer that is asked for no scaling by the document itself is asked once more by the page
  file.set(
    catalogue,
    `<< /Type /Catalog /Pages ${tree} 0 R /Lang (en) /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >> >>`,
  );
  file.set(info, `<< /Title ${utf16(title)} /Producer (Coilwright) /CreationDate (${stamp(date)}) >>`);
  return file.bytes({ root: catalogue, info });
}

const stamp = (date: Date) => `D:${date.toISOString().replace(/\D/g, "").slice(0, 14)}Z`;

const hex = (value: number) => value.toString(16).padStart(4, "0").toUpperCase();
const utf16 = (text: string) =>
  `<FEFF${Array.from({ length: text.length }, (_, n) => hex(text.charCodeAt(n))).join("")}>`;

/** Objects by number, put one after another with the table of their places. */
class PdfFile {
  private readonly objects: (Uint8Array | undefined)[] = [];

  reserve(): number {
    this.objects.push(undefined);
    return this.objects.length;
  }
  add(body: string): number {
    const id = this.reserve();
    this.set(id, body);
    return id;
  }
  set(id: number, body: string): void {
    this.objects[id - 1] = latin(body);
  }
  async addStream(data: Uint8Array | string, entries: string): Promise<number> {
    const plain = typeof data === "string" ? latin(data) : data;
    const packed = await through(plain, new CompressionStream("deflate"));
    const id = this.reserve();
    const head = `<< /Length ${packed.length} /Filter /FlateDecode ${entries} >>\nstream\n`;
    this.objects[id - 1] = joinedBytes([latin(head), packed, latin("\nendstream")]);
    return id;
  }
  bytes({ root, info }: { root: number; info: number }): Uint8Array {
    // four bytes above 127 tell programs that the file is not a text
    const parts: Uint8Array[] = [latin(`${pdfBeginning}%\u00e2\u00e3\u00cf\u00d3\n`)];
    let offset = parts[0]?.length ?? 0;
    const offsets: number[] = [];
    for (const [n, body] of this.objects.entries()) {
      const whole = joinedBytes([latin(`${n + 1} 0 obj\n`), body ?? latin("null"), latin("\nendobj\n")]);
      offsets.push(offset);
      offset += whole.length;
      parts.push(whole);
    }
    const count = this.objects.length + 1;
    const table = offsets.map((at) => `${String(at).padStart(10, "0")} 00000 n \n`).join("");
    parts.push(
      latin(
        `xref\n0 ${count}\n0000000000 65535 f \n${table}trailer\n<< /Size ${count} /Root ${root} 0 R /Info ${info} 0 R >>\nstartxref\n${offset}\n%%EOF\n`,
      ),
    );
    return joinedBytes(parts);
  }
}

const latin = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

/** A composite font whose codes are the glyphs themselves. */
async function addFont(file: PdfFile, face: Face, font: SheetFont): Promise<number> {
  const per = (value: number) => Math.round((value * 1000) / font.unitsPerEm);
  const name = face === "bold" ? "CWSHTB+B612-Bold" : "CWSHTR+B612-Regular";
  const data = await file.addStream(font.trueType, `/Length1 ${font.trueType.length}`);
  const descriptor = file.add(
    `<< /Type /FontDescriptor /FontName /${name} /Flags 32 /FontBBox [${font.bounds.map(per).join(" ")}] /ItalicAngle 0 ` +
      `/Ascent ${per(font.ascent)} /Descent ${per(font.descent)} /CapHeight 750 /StemV ${penWidth[face]} /FontFile2 ${data} 0 R >>`,
  );
  const entries = [...font.glyphs];
  const widths = entries.map(([, { glyph, advance }]) => `${glyph} [${(advance * 1000) / font.unitsPerEm}]`).join(" ");
  const descendant = file.add(
    `<< /Type /Font /Subtype /CIDFontType2 /BaseFont /${name} /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> ` +
      `/FontDescriptor ${descriptor} 0 R /DW 1000 /W [${widths}] /CIDToGIDMap /Identity >>`,
  );
  const unicode = await file.addStream(
    toUnicode(
      entries.map(([character, { glyph }]) => [hex(glyph), character] as const),
      2,
    ),
    "",
  );
  return file.add(
    `<< /Type /Font /Subtype /Type0 /BaseFont /${name} /Encoding /Identity-H /DescendantFonts [${descendant} 0 R] /ToUnicode ${unicode} 0 R >>`,
  );
}

/** The drawn signs as a font of glyphs that are painted by strokes; code 1 is the first. */
async function addSigns(file: PdfFile, face: Face): Promise<number> {
  const procedures: string[] = [];
  for (const [n, sign] of Object.values(drawnSigns).entries()) {
    const path = segmentsOf(sign.path).map((segment) =>
      operator(
        segment,
        (value) => number(value),
        (value) => number(value),
      ),
    );
    const glyph = `${sign.advance} 0 0 -250 ${sign.advance} 900 d1\n${penWidth[face]} w 1 J 1 j\n${path.join("\n")}\nS`;
    procedures.push(`/g${n + 1} ${await file.addStream(glyph, "")} 0 R`);
  }
  const unicode = await file.addStream(
    toUnicode(
      signs.map((character, n) => [hex(n + 1).slice(2), character] as const),
      1,
    ),
    "",
  );
  return file.add(
    `<< /Type /Font /Subtype /Type3 /FontBBox [0 -250 900 900] /FontMatrix [0.001 0 0 0.001 0 0] /FirstChar 1 /LastChar ${signs.length} ` +
      `/Widths [${Object.values(drawnSigns)
        .map(({ advance }) => advance)
        .join(" ")}] /CharProcs << ${procedures.join(" ")} >> ` +
      `/Encoding << /Type /Encoding /Differences [1 ${signs.map((_, n) => `/g${n + 1}`).join(" ")}] >> /Resources << >> /ToUnicode ${unicode} 0 R >>`,
  );
}

function toUnicode(entries: readonly (readonly [code: string, character: string])[], bytes: 1 | 2): string {
  const blocks: string[] = [];
  for (let n = 0; n < entries.length; n += 100) {
    const block = entries.slice(n, n + 100);
    const lines = block.map(([code, character]) => `<${code}> <${hex(character.charCodeAt(0))}>`);
    blocks.push(`${block.length} beginbfchar\n${lines.join("\n")}\nendbfchar`);
  }
  const range = bytes === 1 ? "<00> <FF>" : "<0000> <FFFF>";
  return (
    "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
    "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
    `1 begincodespacerange\n${range}\nendcodespacerange\n${blocks.join("\n")}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend`
  );
}

const contentOf = (page: Page, fonts: Readonly<Record<Face, SheetFont>>): string =>
  page.items.map((item) => itemOf(item, page, fonts)).join("\n");

const itemOf = (item: Item, page: Page, fonts: Readonly<Record<Face, SheetFont>>): string =>
  item.kind === "text" ? textOf(item, page, fonts[item.face]) : pathOf(item, page);

function colour(tone: Tone): string {
  const hexes = tones[tone].slice(1).match(/../g) ?? [];
  return hexes.map((two) => number(Number.parseInt(two, 16) / 255)).join(" ");
}

function operator(segment: Segment, x: (value: number) => string, y: (value: number) => string): string {
  if (segment.kind === "close") return "h";
  const to = `${x(segment.to.x)} ${y(segment.to.y)}`;
  if (segment.kind === "move") return `${to} m`;
  if (segment.kind === "line") return `${to} l`;
  const { first, second } = segment;
  return `${x(first.x)} ${y(first.y)} ${x(second.x)} ${y(second.y)} ${to} c`;
}

function pathOf({ segments, width, tone = "ink", fill, dash, clip }: PathItem, page: Page): string {
  const y = (value: number) => points(page.height - value);
  const box = ({ x, y: top, width: wide, height }: Box) =>
    `${points(x)} ${y(top + height)} ${points(wide)} ${points(height)} re W n`;
  return [
    "q",
    ...(clip ? [box(clip)] : []),
    ...(width === undefined ? [] : [`${points(width)} w 1 J 1 j ${colour(tone)} RG`]),
    ...(dash ? [`[${dash.map(points).join(" ")}] 0 d 0 J`] : []),
    ...(fill ? [`${colour(fill)} rg`] : []),
    ...segments.map((segment) => operator(segment, points, y)),
    fill ? (width === undefined ? "f" : "B") : "S",
    "Q",
  ].join("\n");
}

/** Runs of one font; a run of drawn signs is set in theirs. */
function textOf({ text, x, y, size, face, tone, anchor, upright }: TextItem, page: Page, font: SheetFont): string {
  const shown = settable(text);
  const width = widthOf(shown, { size, face });
  const back = anchor === "middle" ? width / 2 : anchor === "end" ? width : 0;
  const [left, low] = upright ? [x, page.height - y - back] : [x - back, page.height - y];
  const matrix = upright ? `0 1 -1 0 ${points(left)} ${points(low)}` : `1 0 0 1 ${points(left)} ${points(low)}`;
  const runs: string[] = [];
  for (const [run] of shown.matchAll(runsOfSigns)) {
    if (signs.includes([...run][0] ?? "")) {
      const codes = [...run].map((one) => hex(signs.indexOf(one) + 1).slice(2)).join("");
      runs.push(`/S${face} ${points(size)} Tf <${codes}> Tj`);
    } else {
      const codes = [...run].map((one) => hex(font.glyphs.get(one)?.glyph ?? 0)).join("");
      runs.push(`/F${face} ${points(size)} Tf <${codes}> Tj`);
    }
  }
  return ["BT", `${colour(tone)} rg ${colour(tone)} RG`, `${matrix} Tm`, ...runs, "ET"].join("\n");
}

const runsOfSigns = new RegExp(`[${signs.join("")}]+|[^${signs.join("")}]+`, "g");
