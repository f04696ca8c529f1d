/** Tells when the text of one file becomes another one, however that was done: written, renamed over, deleted, made again. */
import { type FSWatcher, watch } from "node:fs";
import { realpath } from "node:fs/promises";
import { dirname } from "node:path";
import { readCoilText } from "./coil-on-disk.ts";

export interface FileWatch {
  /** Tells the watch what is known to be on the disk, so that a save of our own is no news. */
  know(version: string | null): void;
  close(): void;
}

/** An editor that saves makes several events; they settle within this time [ms]. */
const settling = 60;

/**
 * Watches the folder of the file, and looks again every `every` milliseconds as well: folders on a network report nothing,
 * and a folder that was renamed takes its reports along.
 * @param known    version on the disk at the start; null where there is no file
 * @param guard    runs a look so that it does not fall into the middle of a save
 * @param changed  hears the new version; null where the file is gone
 */
export function watchFile({
  path,
  known,
  every,
  guard,
  changed,
}: {
  path: string;
  known: string | null;
  every: number;
  guard: <T>(look: () => Promise<T>) => Promise<T>;
  changed: (version: string | null) => void;
}): FileWatch {
  let last = known;
  let closed = false;
  let soon: NodeJS.Timeout | undefined;
  const watchers: FSWatcher[] = [];

  const look = async () => {
    const version = await readCoilText(path).then(
      (found) => found?.version ?? null,
      // A file that cannot be read at this moment is looked at again; reading it on request says what is wrong.
      () => last,
    );
    if (closed || version === last) return;
    last = version;
    changed(version);
  };
  const lookSoon = () => {
    clearTimeout(soon);
    soon = setTimeout(() => void guard(look), settling);
  };
  const watchFolder = (folder: string) => {
    if (closed) return;
    try {
      const watcher = watch(folder, { persistent: false }, lookSoon);
      watcher.on("error", () => watcher.close());
      watchers.push(watcher);
    } catch {
      // The regular look is enough where a folder cannot be watched.
    }
  };

  watchFolder(dirname(path));
  // Where the path is a link, editors write beside its target.
  void realpath(path).then(
    (target) => dirname(target) !== dirname(path) && watchFolder(dirname(target)),
    () => undefined,
  );
  const regular = setInterval(() => void guard(look), every);
  regular.unref();

  return {
    know: (version) => {
      last = version;
    },
    close: () => {
      closed = true;
      clearTimeout(soon);
      clearInterval(regular);
      for (const watcher of watchers) watcher.close();
    },
  };
}
