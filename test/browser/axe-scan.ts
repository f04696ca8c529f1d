/** What axe-core finds on a page. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

interface Scan {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}

const axePath = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** published: the rules of axe-core for WCAG 2.2 AA and its best practices. */
export async function scan(page: Page): Promise<string[]> {
  await page.evaluate(await readFile(axePath, "utf8"));
  const found = (await page.evaluate("axe.run({ resultTypes: ['violations'] })")) as Scan;
  return found.violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${help}: ${html.slice(0, 160)} ${failureSummary ?? ""}`),
  );
}
