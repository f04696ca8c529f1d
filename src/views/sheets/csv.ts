/** Rows → CSV (RFC 4180). */
export const csvOf = (rows: readonly (readonly string[])[]): string =>
  rows
    .map((row) => row.map(cell).join(","))
    .join("\r\n")
    .concat("\r\n");

/** A cell that begins as a formula does would be run by a spreadsheet: it is quoted with a sign before it. */
function cell(text: string): string {
  const plain = /^[=+@\t]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replace(/"/g, '""')}"` : plain;
}
