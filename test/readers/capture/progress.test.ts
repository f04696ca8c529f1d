/** Reading that is watched and stopped. */
import { describe, expect, it } from "vitest";
import { type Progress, readCapture, readCaptureInPieces } from "../../../src/readers/capture.ts";
import { bytesOf, each, interval, rulesOf, textOf, wave } from "./samples.ts";

const count = 60_000;
const bytes = bytesOf(
  textOf(["t (s),CH1 (V)", ...each((row) => `${(row * interval).toExponential(6)},${wave(row % 240)}`, count)]),
);
const size = 1 << 16;

/** Pieces that stand in one buffer, as the command line's do, and what became of their source. */
function source({ pauseAfter = Number.POSITIVE_INFINITY }: { pauseAfter?: number } = {}) {
  const state = { given: 0, closed: false };
  const buffer = new Uint8Array(size);
  async function* pieces() {
    try {
      for (let at = 0; at < bytes.length; at += size) {
        if (state.given >= pauseAfter) await new Promise(() => {});
        const part = bytes.subarray(at, at + size);
        buffer.set(part);
        state.given++;
        yield buffer.subarray(0, part.length);
      }
    } finally {
      state.closed = true;
    }
  }
  return { state, pieces };
}

const streamOf = (parts: AsyncIterable<Uint8Array>, closed: () => void): ReadableStream<Uint8Array> => {
  const iterator = parts[Symbol.asyncIterator]();
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      const { done, value } = await iterator.next();
      if (done === true) controller.close();
      else controller.enqueue(value.slice());
    },
    cancel: closed,
  });
};

// law: watching changes nothing
describe("progress", () => {
  it("counts bytes and rows up to the whole, and the record is the same", async () => {
    const seen: Progress[] = [];
    const { pieces, state } = source();
    const reading = await readCaptureInPieces(pieces(), {
      bytesTotal: bytes.length,
      onProgress: (one) => seen.push(one),
    });
    expect(reading).toEqual(readCapture(bytes));
    expect(reading.record?.length).toBe(count);
    expect(seen.length).toBeGreaterThan(10);
    expect(seen.at(-1)).toMatchObject({ bytesRead: bytes.length, bytesTotal: bytes.length });
    expect(seen.at(-1)?.rows).toBeGreaterThan(count - 5);
    for (const [n, { bytesRead, rows }] of seen.entries()) {
      expect(bytesRead).toBeGreaterThan(seen[n - 1]?.bytesRead ?? 0);
      expect(rows).toBeGreaterThanOrEqual(seen[n - 1]?.rows ?? 0);
    }
    expect(state.closed).toBe(true);
  });

  it("is told of a stream as well, whose whole may be unknown", async () => {
    const seen: Progress[] = [];
    const { pieces } = source();
    const reading = await readCaptureInPieces(
      streamOf(pieces(), () => {}),
      { onProgress: (one) => seen.push(one) },
    );
    expect(reading.record?.length).toBe(count);
    expect(seen.at(-1)).toMatchObject({ bytesRead: bytes.length, bytesTotal: undefined });
  });
});

// law: what was stopped leaves no record, says so, and closes its source
describe("a reading that is stopped", () => {
  it("says after how much, and asks for nothing more", async () => {
    const stop = new AbortController();
    const { pieces, state } = source();
    const reading = await readCaptureInPieces(pieces(), {
      bytesTotal: bytes.length,
      signal: stop.signal,
      onProgress: ({ rows }) => {
        if (rows > 20_000) stop.abort();
      },
    });
    expect(reading.record).toBeUndefined();
    expect(reading.dialect).toBeUndefined();
    expect(rulesOf(reading)).toEqual(["capture-cancelled"]);
    expect(reading.findings[0]?.what).toMatch(/^reading was stopped after \d.* of 1\.\d MB; nothing of it is kept$/);
    expect(state.closed).toBe(true);
    expect(state.given * size).toBeLessThan(bytes.length);
  });

  it("does not wait for a source that is silent", async () => {
    const stop = new AbortController();
    const { pieces } = source({ pauseAfter: 2 });
    const reading = readCaptureInPieces(pieces(), { signal: stop.signal });
    setTimeout(() => stop.abort(), 5);
    expect(rulesOf(await reading)).toEqual(["capture-cancelled"]);
  });

  it("cancels a stream", async () => {
    const stop = new AbortController();
    let cancelled = false;
    const { pieces } = source({ pauseAfter: 2 });
    const reading = readCaptureInPieces(
      streamOf(pieces(), () => {
        cancelled = true;
      }),
      { signal: stop.signal },
    );
    setTimeout(() => stop.abort(), 5);
    expect(rulesOf(await reading)).toEqual(["capture-cancelled"]);
    expect(cancelled).toBe(true);
  });

  it("reads nothing where it was stopped before", async () => {
    const { pieces, state } = source();
    expect(rulesOf(await readCaptureInPieces(pieces(), { signal: AbortSignal.abort() }))).toEqual([
      "capture-cancelled",
    ]);
    expect(state.given).toBe(0);
  });

  it("leaves no listener on the signal", async () => {
    const { signal } = new AbortController();
    let listeners = 0;
    const add = signal.addEventListener.bind(signal);
    const remove = signal.removeEventListener.bind(signal);
    signal.addEventListener = (...parts: Parameters<typeof add>) => {
      listeners++;
      add(...parts);
    };
    signal.removeEventListener = (...parts: Parameters<typeof remove>) => {
      listeners--;
      remove(...parts);
    };
    await readCaptureInPieces(source().pieces(), { signal });
    expect(listeners).toBe(0);
  });

  it("passes on what the source fails of", async () => {
    async function* failing() {
      yield bytes.subarray(0, size);
      throw new Error("unplugged");
    }
    await expect(readCaptureInPieces(failing())).rejects.toThrow("unplugged");
  });
});
