/** Pieces of bytes as one. */
export function joinedBytes(pieces: Iterable<Uint8Array>): Uint8Array<ArrayBuffer> {
  const all = [...pieces];
  const whole = new Uint8Array(all.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of all) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
