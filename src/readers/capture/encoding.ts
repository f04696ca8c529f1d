/** From bytes to text: which encoding, and a stream of UTF-8 bytes whatever it was. */
import type { Encoding } from "./dialect.ts";

/** What the first bytes say of the encoding. `mark` is the length of the byte order mark. */
export function encodingOf(head: Uint8Array): { encoding: Encoding; mark: number; because: string } {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf)
    return { encoding: "utf-8", mark: 3, because: "the byte order mark at its beginning" };
  if (head[0] === 0xff && head[1] === 0xfe)
    return { encoding: "utf-16le", mark: 2, because: "the byte order mark at its beginning" };
  if (head[0] === 0xfe && head[1] === 0xff)
    return { encoding: "utf-16be", mark: 2, because: "the byte order mark at its beginning" };
  const { even, odd } = zeros(head);
  const few = head.length / 20;
  if (odd > head.length / 4 && even < few)
    return { encoding: "utf-16le", mark: 0, because: "every second byte is zero, the first is not" };
  if (even > head.length / 4 && odd < few)
    return { encoding: "utf-16be", mark: 0, because: "every second byte is zero, beginning with the first" };
  return isUtf8(head)
    ? { encoding: "utf-8", mark: 0, because: "every byte of the beginning fits it" }
    : { encoding: "windows-1252", mark: 0, because: "bytes of the beginning that are not UTF-8" };
}

function zeros(head: Uint8Array): { even: number; odd: number } {
  let even = 0;
  let odd = 0;
  for (let i = 0; i < head.length; i++) {
    if (head[i] !== 0) continue;
    if (i % 2 === 0) even++;
    else odd++;
  }
  return { even, odd };
}

function isUtf8(head: Uint8Array): boolean {
  try {
    // `stream` forgives a character that the end of the head cuts in two.
    new TextDecoder("utf-8", { fatal: true }).decode(head, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** Pieces in `encoding` to pieces in which every ASCII character is one byte: UTF-16 is rewritten, the rest passes. */
export function asciiKeeper(encoding: Encoding): (piece: Uint8Array, last: boolean) => Uint8Array {
  if (encoding === "utf-8" || encoding === "windows-1252") return (piece) => piece;
  const decoder = new TextDecoder(encoding);
  const encoder = new TextEncoder();
  return (piece, last) => encoder.encode(decoder.decode(piece, { stream: !last }));
}

/** Text of bytes that `asciiKeeper` gave. */
export function textOf(bytes: Uint8Array, encoding: Encoding): string {
  return new TextDecoder(encoding === "windows-1252" ? "windows-1252" : "utf-8").decode(bytes);
}

/** True where the bytes are no text: more than one in fifty is a control character that no text has. */
export function isBinary(bytes: Uint8Array): boolean {
  let odd = 0;
  for (const byte of bytes) if (byte < 9 || (byte > 13 && byte < 32 && byte !== 26) || byte === 127) odd++;
  return odd > bytes.length / 50;
}
