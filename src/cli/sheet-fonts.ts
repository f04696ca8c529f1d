/** The fonts of the sheets, carried in the program. */

import regular from "@fontsource/b612/files/b612-latin-400-normal.woff?inline";
import bold from "@fontsource/b612/files/b612-latin-700-normal.woff?inline";
import type { FontFiles } from "../views/sheets/index.ts";

const bytesOf = (address: string): Uint8Array => Buffer.from(address.slice(address.indexOf(",") + 1), "base64");

export const sheetFonts = (): FontFiles => ({ regular: bytesOf(regular), bold: bytesOf(bold) });

/** The font of the pictures as a data address: a file that stands alone cannot fetch one. */
export const pictureFont: string = regular;
