/** The world outside, as the command line sees it: handed in, so that tests need no child process. */

export interface SavedText {
  readonly text: string;
  /** What the text was when it was read; a file that changed since is not replaced. Null where there must be no file yet. */
  readonly version: string | null;
}

export interface Io {
  out(text: string): void;
  err(text: string): void;
  /** A message that replaces itself, on a terminal only. An empty one clears the line. */
  progress(text: string): void;
  /** @throws UserError the file cannot be read; undefined where there is none */
  read(path: string): Promise<{ readonly text: string; readonly version: string } | undefined>;
  /** Whole or not at all. @throws UserError it could not be saved, and the file is what it was */
  save(path: string, saved: SavedText): Promise<void>;
  /**
   * Writes something that the program makes: a table, a picture. What stands at the path is replaced only where the program made it, which it
   * knows by how it begins.
   * @throws UserError  something else is there, or it cannot be written
   */
  write(path: string, made: { readonly text: string | Uint8Array; readonly beginning: string }): Promise<void>;
  /** Makes a folder, and those that it stands in, where they are not there. @throws UserError it cannot be made */
  folder(path: string): Promise<void>;
  /** The day on this machine's calendar, as 2026-01-31. */
  today(): string;
  /**
   * A file by the piece, for records of any size; undefined where there is none. A piece holds until the next one is asked for: all stand in
   * the same memory.
   * @throws UserError  it cannot be read, when it is opened or while it is
   */
  pieces(path: string): Promise<{ readonly size: number; readonly pieces: AsyncIterable<Uint8Array> } | undefined>;
  /** Work that the person may stop with Ctrl+C: the signal is aborted then, and the program goes on. A second Ctrl+C ends it. */
  interruptible<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T>;
  readStandardInput(): Promise<string>;
  /** Coil files that come with the program, by name without ending. */
  examples(): Promise<ReadonlyMap<string, string>>;
  /** Serves the app for a file until the person ends it; resolves then. @throws UserError it cannot be served */
  serve(request: { readonly file: string; readonly port?: number; readonly browser: boolean }): Promise<void>;
  /** This moment, as `2026-11-25T16:20:00Z`. */
  now(): string;
  readonly colour: boolean;
  /** Columns of the terminal; 80 where there is none. */
  readonly width: number;
}

/** A mistake or a mishap that the person can mend; its message is for them. */
export class UserError extends Error {
  override readonly name = "UserError";
}

/** The person stopped the work. */
export class Interrupted extends UserError {}
