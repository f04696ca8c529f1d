/** The workers as seen from the page, and a way to ask them that keeps only the newest question. */
import { type Remote, wrap } from "comlink";
import type { Bench } from "./solver.worker.ts";

const start = (): Remote<Bench> =>
  wrap<Bench>(new Worker(new URL("./solver.worker.ts", import.meta.url), { type: "module" }));

let quick: Remote<Bench> | undefined;
let slow: Remote<Bench> | undefined;

/** Answers every change at once. */
export function quickBench(): Remote<Bench> {
  quick ??= start();
  return quick;
}

/** Maps, intervals and explanations: seconds of work that must not hold up a drag. */
export function slowBench(): Remote<Bench> {
  slow ??= start();
  return slow;
}

let records: Remote<Bench> | undefined;

/** Records, match, bring-up and papers: a worker of their own, for it keeps the records and must not wait for intervals. */
export function recordBench(): Remote<Bench> {
  records ??= start();
  return records;
}

/**
 * Asks one question at a time; while one is open, only the newest of the others is kept.
 *
 * @param ask     the slow work
 * @param answer  hears every answer, and whether a newer question is already waiting
 */
export function latestOnly<Q, A>(ask: (question: Q) => Promise<A>, answer: (answer: A, isLate: boolean) => void) {
  let open = false;
  let waiting: { readonly question: Q } | undefined;
  const next = async (question: Q): Promise<void> => {
    open = true;
    try {
      const got = await ask(question);
      answer(got, waiting !== undefined);
    } finally {
      open = false;
      const newest = waiting;
      waiting = undefined;
      if (newest !== undefined) void next(newest.question);
    }
  };
  return (question: Q): void => {
    if (open) waiting = { question };
    else void next(question);
  };
}
