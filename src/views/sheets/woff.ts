/** From a WOFF file to the TrueType font in it, and to what a PDF must know of that. */

export interface SheetFont {
  /** The font as TrueType. */
  readonly trueType: Uint8Array;
  readonly unitsPerEm: number;
  /** Glyph and advance, in font units, by character. */
  readonly glyphs: ReadonlyMap<string, { readonly glyph: number; readonly advance: number }>;
  readonly ascent: number;
  readonly descent: number;
  /** Left, bottom, right, top [font units]. */
  readonly bounds: readonly [number, number, number, number];
}

interface Table {
  readonly tag: string;
  readonly checksum: number;
  readonly data: Uint8Array;
}

/**
 * Reads a font in WOFF 1 (W3C, 2012, section 4) with TrueType outlines and a character map of format 4.
 *
 * @throws RangeError  it is no such font
 */
export async function openWoff(file: Uint8Array): Promise<SheetFont> {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.length < 44 || view.getUint32(0) !== 0x774f4646) throw new RangeError("font: not a WOFF file");
  const tables: Table[] = [];
  for (let n = 0; n < view.getUint16(12); n++) {
    const at = 44 + 20 * n;
    const [offset, stored, length] = [view.getUint32(at + 4), view.getUint32(at + 8), view.getUint32(at + 12)];
    const bytes = file.slice(offset, offset + stored);
    tables.push({
      tag: String.fromCharCode(...file.subarray(at, at + 4)),
      checksum: view.getUint32(at + 16),
      data: stored < length ? await through(bytes, new DecompressionStream("deflate")) : bytes,
    });
  }
  const table = (tag: string): DataView => {
    const found = tables.find((one) => one.tag === tag)?.data;
    if (!found) throw new RangeError(`font: it has no table ${tag}`);
    return new DataView(found.buffer, found.byteOffset, found.byteLength);
  };
  const [head, hhea] = [table("head"), table("hhea")];
  return {
    trueType: assembled(tables, view.getUint32(4)),
    unitsPerEm: head.getUint16(18),
    glyphs: glyphsOf(table("cmap"), table("hmtx"), hhea.getUint16(34)),
    ascent: hhea.getInt16(4),
    descent: hhea.getInt16(6),
    bounds: [head.getInt16(36), head.getInt16(38), head.getInt16(40), head.getInt16(42)],
  };
}

/** Bytes through a stream that packs or unpacks them. */
export async function through(bytes: Uint8Array, stream: CompressionStream | DecompressionStream): Promise<Uint8Array> {
  const source = new Blob([new Uint8Array(bytes)]).stream().pipeThrough(stream);
  return new Uint8Array(await new Response(source).arrayBuffer());
}

/** Tables one after another behind their directory, each on a multiple of four. */
function assembled(tables: readonly Table[], flavour: number): Uint8Array {
  const padded = (length: number) => (length + 3) & ~3;
  const directory = 12 + 16 * tables.length;
  const made = new Uint8Array(tables.reduce((sum, { data }) => sum + padded(data.length), directory));
  const view = new DataView(made.buffer);
  const power = 2 ** Math.floor(Math.log2(tables.length));
  view.setUint32(0, flavour);
  view.setUint16(4, tables.length);
  view.setUint16(6, 16 * power);
  view.setUint16(8, Math.log2(power));
  view.setUint16(10, 16 * (tables.length - power));
  let offset = directory;
  for (const [n, { tag, checksum, data }] of tables.entries()) {
    const at = 12 + 16 * n;
    for (let k = 0; k < 4; k++) view.setUint8(at + k, tag.charCodeAt(k));
    view.setUint32(at + 4, checksum);
    view.setUint32(at + 8, offset);
    view.setUint32(at + 12, data.length);
    made.set(data, offset);
    offset += padded(data.length);
  }
  return made;
}

function glyphsOf(cmap: DataView, hmtx: DataView, metrics: number): SheetFont["glyphs"] {
  let at: number | undefined;
  for (let n = 0; n < cmap.getUint16(2); n++) {
    const offset = cmap.getUint32(8 + 8 * n);
    if (cmap.getUint16(offset) === 4) at = offset;
  }
  if (at === undefined) throw new RangeError("font: no character map of format 4");
  const count = cmap.getUint16(at + 6) / 2;
  const ends = at + 14;
  const [starts, deltas, offsets] = [ends + 2 + 2 * count, ends + 2 + 4 * count, ends + 2 + 6 * count];
  const glyphs = new Map<string, { glyph: number; advance: number }>();
  for (let s = 0; s < count; s++) {
    const offset = cmap.getUint16(offsets + 2 * s);
    const [first, last] = [cmap.getUint16(starts + 2 * s), cmap.getUint16(ends + 2 * s)];
    for (let code = first; code <= last && code < 0xffff; code++) {
      const found = offset === 0 ? code : cmap.getUint16(offsets + 2 * s + offset + 2 * (code - first));
      const glyph = found === 0 ? 0 : (found + cmap.getInt16(deltas + 2 * s)) & 0xffff;
      if (glyph === 0) continue;
      glyphs.set(String.fromCharCode(code), { glyph, advance: hmtx.getUint16(4 * Math.min(glyph, metrics - 1)) });
    }
  }
  return glyphs;
}
