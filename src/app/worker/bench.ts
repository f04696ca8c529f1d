/** The worker as seen from the page, and a way to ask it that keeps only the newest question. */
import { type Remote, wrap } from "comlink";
import type { Bench } from "./solver.worker.ts";

let remote: Remote<Bench> | undefined;

/** The one worker of the page. */
export function bench(): Remote<Bench> {
  remote ??= wrap<Bench>(
    new Worker(new URL("./solver.worker.ts", import.meta.url), { type: "module", name: "solver" }),
  );
  return remote;
}

/**
 * Asks one question at a time; while one is open, only the newest of the others is kept.
 *
 * @param ask     the slow work
 * @param answer  hears every answer whose question is still the newest one asked, and early ones as long as they help (`isLate` says)
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
