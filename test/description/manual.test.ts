import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { keysInMarkdown, tolerancesInMarkdown } from "../../src/description/manual.ts";
import { coilJsonSchema } from "../../src/readers/coil-file.ts";

const manual = new URL("../../docs/coil-file.md", import.meta.url);

/** Puts `text` between the marks of a made section. */
function fill(page: string, name: string, text: string): string {
  const [start, end] = [page.indexOf(`<!-- ${name}:`), page.indexOf(`<!-- end of ${name} -->`)];
  if (start < 0 || end < start) throw new Error(`docs/coil-file.md has no section for ${name}`);
  return `${page.slice(0, page.indexOf("\n", start) + 1)}\n${text}\n\n${page.slice(end)}`;
}

describe("what is made from the keys", () => {
  // law: the manual and the schema say what the keys say; `npx vitest run test/description/manual.test.ts --update` writes them anew
  it("the manual is current", async () => {
    const page = readFileSync(manual, "utf8");
    const current = fill(fill(page, "tolerances", tolerancesInMarkdown()), "keys", keysInMarkdown());
    await expect(current).toMatchFileSnapshot(manual.pathname);
  });

  it("the schema is current", async () => {
    await expect(`${JSON.stringify(coilJsonSchema(), null, 2)}\n`).toMatchFileSnapshot(
      new URL("../../docs/coil.schema.json", import.meta.url).pathname,
    );
  });
});
