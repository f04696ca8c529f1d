/** A thin front over the complex fast Fourier transform of length 2^n. */
import Transform from "fft.js";
import { OutOfDomain } from "./out-of-domain.ts";

/** Interleaved complex numbers [re, im, re, im, …]; a plain array, which the transform fills faster than a Float64Array. */
export type ComplexArray = number[];

export interface FourierTransform {
  /** Number of complex points, a power of two. */
  readonly size: number;
  /** X[k] = Σ x[n]·exp(−2πi·kn/size). `from` and `into` are interleaved, [2·size], and must differ. */
  forward(from: ComplexArray, into: ComplexArray): void;
  /** The inverse of `forward`, divided by `size`. */
  inverse(from: ComplexArray, into: ComplexArray): void;
  /** A zeroed interleaved array of the right length. */
  array(): ComplexArray;
}

const transforms = new Map<number, FourierTransform>();

/** The smallest power of two that is at least `count` and at least 2. */
export function powerOfTwoFrom(count: number): number {
  return 2 ** Math.max(1, Math.ceil(Math.log2(count)));
}

/**
 * The transform of `size` complex points. Its twiddle factors are made once per size and shared.
 *
 * @throws OutOfDomain  size is not a power of two, or below 2
 * @validity  relative error about 1e-16·log2(size), of the largest value
 */
export function fourierTransform(size: number): FourierTransform {
  const known = transforms.get(size);
  if (known) return known;
  if (!Number.isInteger(size) || size < 2 || powerOfTwoFrom(size) !== size) {
    throw new OutOfDomain("fourierTransform", `size must be a power of two of at least 2, got ${size}`);
  }
  const engine = new Transform(size);
  const made: FourierTransform = {
    size,
    forward: (from, into) => engine.transform(into, from),
    inverse: (from, into) => engine.inverseTransform(into, from),
    array: () => new Array<number>(2 * size).fill(0),
  };
  transforms.set(size, made);
  return made;
}
