/** What can be wrong with a file, said so that the person at the keyboard knows what to do. */
import { dirname } from "node:path";
import { platformCode, ServeError } from "./errors.ts";

/** The greatest coil file that is read or written [bytes]. A coil is a few kilobytes. */
export const largestFile = 1024 * 1024;

export const notAFile = (path: string) =>
  new ServeError({ code: "not-a-file", status: 400, message: `${path} is not a file; a coil file was expected` });
export const tooLarge = (path: string) =>
  new ServeError({
    code: "file-too-large",
    status: 413,
    message: `${path} is larger than ${largestFile / 1024} KiB; a coil file is a few kilobytes`,
  });
export const notUtf8 = (path: string) =>
  new ServeError({
    code: "not-utf-8",
    status: 422,
    message: `${path} is not UTF-8 text; save it as UTF-8 in an editor and open it again`,
  });
export const notUnicode = () =>
  new ServeError({ code: "not-unicode", status: 422, message: "the text holds half a character and cannot be saved" });
export const notReadable = (path: string) =>
  new ServeError({ code: "not-readable", status: 403, message: `${path} may not be read by this user` });
export const writeProtected = (path: string) =>
  new ServeError({
    code: "file-write-protected",
    status: 403,
    message: `${path} is write-protected and was left as it was; make it writable, or work on a copy`,
  });

/** Says which failure of the platform stopped a save, and that nothing was lost. */
export function notSaved(target: string, error: unknown): ServeError {
  const kept = "the file was left as it was";
  switch (platformCode(error)) {
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return new ServeError({
        code: "folder-read-only",
        status: 403,
        message: `${dirname(target)} cannot be written to; ${kept}; work on a copy in a folder of your own`,
      });
    case "ENOENT":
      return new ServeError({
        code: "folder-missing",
        status: 409,
        message: `${dirname(target)} is no longer there; make it again, or save the text elsewhere`,
      });
    case "ENOSPC":
    case "EDQUOT":
      return new ServeError({
        code: "disk-full",
        status: 507,
        message: `the disk is full; ${kept}; free some room and save again`,
      });
    default: {
      const reason = error instanceof Error ? error.message : String(error);
      return new ServeError({ code: "not-saved", status: 500, message: `saving failed (${reason}); ${kept}` });
    }
  }
}
