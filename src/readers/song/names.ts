/** Names out of a file that may be in any encoding: short, on one line, without control characters. */
import { limits } from "./limits.ts";

/** UTF-8 where the bytes are that, else the Western code page that most old files were written in. */
export function nameFrom(bytes: Uint8Array): string {
  const head = bytes.subarray(0, 4 * limits.name);
  return cleanName(decoded(head));
}

/** A name as it may stand in a list: no control characters, single spaces, at most 80 characters. */
export function cleanName(text: string): string {
  const clean = text
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\ufffd]+/gu, " ")
    .replace(/\s+/g, " ")
    .trim();
  return [...clean].slice(0, limits.name).join("").trim();
}

function decoded(bytes: Uint8Array): string {
  try {
    // A cut may fall within a letter; as a stream the rest is left aside.
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream: true });
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

/** The names, each made unique with a number behind it where it was there before. */
export function uniqueNames(names: readonly string[]): readonly string[] {
  const taken = new Set<string>();
  const next = new Map<string, number>();
  return names.map((name) => {
    let tried = name;
    let number = next.get(name) ?? 2;
    while (taken.has(tried)) tried = `${name} (${number++})`;
    next.set(name, number);
    taken.add(tried);
    return tried;
  });
}
