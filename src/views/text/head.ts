/** The first line of every page: whose page it is. */
import type { Paint } from "./paint.ts";
import { columns, cut } from "./wrap.ts";

/** Name and file; a name too long for the line is cut, and a file that has no room beside it goes below. */
export function headText({
  name,
  fileName,
  width,
  paint,
}: {
  /** Of the coil. */
  name: string;
  fileName: string;
  width: number;
  paint: Paint;
}): string {
  const [shown, file] = [cut(name, width), paint("dim", fileName)];
  const beside = columns(shown) + 2 + columns(fileName) <= width;
  return `${paint("bold", shown)}${beside ? "  " : "\n"}${file}`;
}
