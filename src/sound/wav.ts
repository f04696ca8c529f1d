/** Samples → a WAV file, piece by piece. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Hertz } from "../units/si.ts";

/** 32-bit floating point, or 16-bit whole numbers. */
export type Coding = "float32" | "int16";

export interface WavShape {
  readonly rate: Hertz;
  readonly frames: number;
  readonly coding: Coding;
}

const widths: Readonly<Record<Coding, number>> = { float32: 4, int16: 2 };

/** Length of the whole file in bytes. */
export function wavLength({ frames, coding }: Pick<WavShape, "frames" | "coding">): number {
  return headerLength(coding) + frames * widths[coding];
}

/**
 * The header and then the samples of a mono WAV file; nothing is held but the piece in hand.
 *
 * @param chunks  `frames` samples in all, within ±1; 16 bit rounds to the nearest of 32767 steps
 * @throws OutOfDomain  the file would pass 4 GiB, or the pieces do not hold `frames` samples
 * @source  Multimedia programming interface and data specifications 1.0 (1991), chapter 3; from memory
 */
export function* wavFile(
  chunks: Iterable<Float32Array>,
  shape: WavShape,
): Generator<Uint8Array<ArrayBuffer>, void, undefined> {
  if (wavLength(shape) > 0xffffffff)
    throw new OutOfDomain("wavFile", "a WAV file holds less than 4 GiB: use a lower rate or a part");
  yield header(shape);
  let written = 0;
  for (const chunk of chunks) {
    written += chunk.length;
    yield coded(chunk, shape.coding);
  }
  if (written !== shape.frames)
    throw new OutOfDomain("wavFile", `${shape.frames} samples were announced, ${written} came`);
}

/** Floating point asks for a longer format chunk and for the number of samples. */
function headerLength(coding: Coding): number {
  return coding === "float32" ? 58 : 44;
}

function header({ rate, frames, coding }: WavShape): Uint8Array<ArrayBuffer> {
  const width = widths[coding];
  const length = headerLength(coding);
  const bytes = new Uint8Array(length);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const text = (words: string): void => {
    for (const letter of words) bytes[at++] = letter.charCodeAt(0);
  };
  const long = (value: number): void => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const short = (value: number): void => {
    view.setUint16(at, value, true);
    at += 2;
  };
  text("RIFF");
  long(length - 8 + frames * width);
  text("WAVEfmt ");
  long(coding === "float32" ? 18 : 16);
  short(coding === "float32" ? 3 : 1);
  short(1);
  long(rate);
  long(rate * width);
  short(width);
  short(8 * width);
  if (coding === "float32") {
    short(0);
    text("fact");
    long(4);
    long(frames);
  }
  text("data");
  long(frames * width);
  return bytes;
}

function coded(chunk: Float32Array, coding: Coding): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(chunk.length * widths[coding]);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < chunk.length; i++) {
    const value = chunk[i] ?? 0;
    if (coding === "float32") view.setFloat32(4 * i, value, true);
    else view.setInt16(2 * i, Math.round(32_767 * Math.max(-1, Math.min(1, value))), true);
  }
  return bytes;
}
