import { exit } from "../exit.ts";
import { type Io, UserError } from "../io.ts";

/** `coilwright open FILE`: serves the app for that file on this machine, until Ctrl+C. */
export async function open(
  io: Io,
  name: string,
  { port, browser }: { port?: string; browser: boolean },
): Promise<number> {
  const number = port === undefined ? undefined : Number(port);
  if (number !== undefined && !(Number.isInteger(number) && number >= 0 && number <= 65535)) {
    throw new UserError(`${port} is no port; a whole number from 0 to 65535 was expected`);
  }
  await io.serve({ file: name, browser, ...(number === undefined ? {} : { port: number }) });
  return exit.clean;
}
