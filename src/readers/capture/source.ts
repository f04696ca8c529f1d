/** Pieces of bytes from wherever they come, until the end or until a person stops it. */

export type CaptureSource = ReadableStream<Uint8Array> | AsyncIterable<Uint8Array> | Iterable<Uint8Array>;

/** A source that waits for its next piece is not waited for once the signal is aborted; it is closed. */
export async function* piecesOf(source: CaptureSource, signal: AbortSignal | undefined): AsyncGenerator<Uint8Array> {
  const pieces = iteratorOf(source);
  let stop = (): void => {};
  const stopped = new Promise<undefined>((resolve) => {
    stop = () => resolve(undefined);
  });
  signal?.addEventListener("abort", stop);
  let ended = false;
  try {
    while (signal?.aborted !== true) {
      const next = await Promise.race([pieces.next(), stopped]);
      if (next === undefined) return;
      if (next.done === true) {
        ended = true;
        return;
      }
      yield next.value;
    }
  } catch (error) {
    // A source that fails is at its end.
    ended = true;
    throw error;
  } finally {
    signal?.removeEventListener("abort", stop);
    if (!ended) close(pieces);
  }
}

interface Pieces {
  next(): Promise<IteratorResult<Uint8Array, unknown>> | IteratorResult<Uint8Array, unknown>;
  return?(): unknown;
}

/** Bytes that are asked of a stream at once. */
const pieceSize = 1 << 20;

/** Not every browser lets a stream be walked as an iterable. */
function iteratorOf(source: CaptureSource): Pieces {
  if ("getReader" in source) return intoOneBuffer(source) ?? asTheyCome(source);
  return Symbol.asyncIterator in source ? source[Symbol.asyncIterator]() : source[Symbol.iterator]();
}

/** A stream of bytes fills the same memory again and again: a long record would leave as much garbage otherwise. */
function intoOneBuffer(source: ReadableStream<Uint8Array>): Pieces | undefined {
  const reader = byteReader(source);
  if (reader === undefined) return undefined;
  let buffer = new ArrayBuffer(pieceSize);
  return {
    async next() {
      const { done, value } = await reader.read(new Uint8Array(buffer));
      if (value !== undefined) buffer = value.buffer;
      return done || value === undefined ? { done: true, value: undefined } : { done: false, value };
    },
    return: () => reader.cancel(),
  };
}

function byteReader(source: ReadableStream<Uint8Array>): ReadableStreamBYOBReader | undefined {
  try {
    return source.getReader({ mode: "byob" });
  } catch (error) {
    // Only a stream of bytes has such a reader; a stream that is taken already has none of either kind.
    if (error instanceof TypeError && !source.locked) return undefined;
    throw error;
  }
}

function asTheyCome(source: ReadableStream<Uint8Array>): Pieces {
  const reader = source.getReader();
  return {
    async next() {
      const { done, value } = await reader.read();
      return done ? { done: true, value: undefined } : { done: false, value };
    },
    return: () => reader.cancel(),
  };
}

/** Not waited for: a source may be closed only once its pending piece has come. */
function close(pieces: Pieces): void {
  void Promise.resolve(pieces.return?.()).catch(() => {});
}
