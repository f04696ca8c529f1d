/** The bytes of a MIDI file as they are written. */

/** 7 bits a byte, the high bit set on all but the last. */
export function variableLength(value: number): number[] {
  const bytes = [value & 0x7f];
  for (let rest = Math.floor(value / 128); rest > 0; rest = Math.floor(rest / 128)) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

/** A meta event without its delta time. */
export function metaEvent(type: number, content: Iterable<number>): number[] {
  const bytes = [...content];
  return [0xff, type, ...variableLength(bytes.length), ...bytes];
}

/** Chunks one after the other: each a type of four letters and its content. */
export function chunks(parts: readonly { readonly type: string; readonly content: readonly number[] }[]): Uint8Array {
  const total = parts.reduce((sum, { content }) => sum + 8 + content.length, 0);
  const bytes = new Uint8Array(total);
  const view = new DataView(bytes.buffer);
  let at = 0;
  for (const { type, content } of parts) {
    for (let i = 0; i < 4; i++) bytes[at + i] = type.charCodeAt(i);
    view.setUint32(at + 4, content.length);
    bytes.set(content, at + 8);
    at += 8 + content.length;
  }
  return bytes;
}
