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

/** Not every browser lets a stream be walked as an iterable. */
function iteratorOf(source: CaptureSource): Pieces {
  if ("getReader" in source) {
    const reader = source.getReader();
    return { next: async () => resultOf(await reader.read()), return: () => reader.cancel() };
  }
  return Symbol.asyncIterator in source ? source[Symbol.asyncIterator]() : source[Symbol.iterator]();
}

function resultOf({ done, value }: ReadableStreamReadResult<Uint8Array>): IteratorResult<Uint8Array, unknown> {
  return done ? { done: true, value: undefined } : { done: false, value };
}

/** Not waited for: a source may be closed only once its pending piece has come. */
function close(pieces: Pieces): void {
  void Promise.resolve(pieces.return?.()).catch(() => {});
}
