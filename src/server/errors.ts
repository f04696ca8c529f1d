/** A mistake that the person at the keyboard can mend: a sentence for them, a code for the program, a status for the wire. */
export class ServeError extends Error {
  readonly code: string;
  readonly status: number;
  constructor({ code, status, message }: { code: string; status: number; message: string }) {
    super(message);
    this.name = "ServeError";
    this.code = code;
    this.status = status;
  }
}

/** The code of an error of the platform, e.g. `ENOENT`; undefined for any other thing thrown. */
export const platformCode = (error: unknown): string | undefined =>
  error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : undefined;
