/** Work of the worker that the page may end: known from the moment it was asked for, though its part of the program is still on its way. */

const atWork = new Set<AbortController>();

export async function stoppable<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const mine = new AbortController();
  atWork.add(mine);
  try {
    return await work(mine.signal);
  } finally {
    atWork.delete(mine);
  }
}

export function stopAll(): void {
  for (const each of atWork) each.abort();
}
