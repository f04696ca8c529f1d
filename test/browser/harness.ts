/**
 * A browser test: `test("…", async ({ app }) => { … })`. `app` is the built app in a page of its own, served for a copy of a
 * coil that the test may spoil. The test fails on an uncaught error, on a console error, and on any request to elsewhere.
 */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { inject, test as plain } from "vitest";
import { browserFlags } from "../../scripts/browser.js";
import { demoCoil, examples } from "../../scripts/demo-coil.js";
import { serveCoil } from "../../src/server/index.ts";

/** What a test may wait for by default [ms]; a missing button should not cost half a minute. */
const patience = 10_000;

export interface OpenOptions {
  /** Name in examples/, e.g. `thimble.yaml`; the demo coil when left out. */
  readonly example?: string;
  /** The text of the coil file, in place of an example. */
  readonly text?: string;
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: "light" | "dark";
  readonly reducedMotion?: "reduce" | "no-preference";
  /** Where in the app to begin, e.g. `#burst`. */
  readonly at?: string;
}

export interface OpenApp {
  readonly page: Page;
  readonly address: string;
  /** The served coil file on the disk. */
  readonly file: string;
  /** The text of the served file, as it is on the disk now. */
  textOnDisk(): Promise<string>;
  /** From here on a message that matches is no fault, e.g. the browser's own report of a refused save. */
  expectTrouble(pattern: RegExp): void;
  /** What went wrong so far and was not expected. */
  troubles(): readonly string[];
}

export type Opener = (options?: OpenOptions) => Promise<OpenApp>;

const launch = (executablePath: string) => chromium.launch({ executablePath, args: browserFlags });

/** The text of a coil to open. */
async function coilText({ example, text }: OpenOptions): Promise<string> {
  if (text !== undefined) return text;
  return readFile(example === undefined ? demoCoil : join(examples, example), "utf8");
}

/** Opens the app in a page of its own; `closing` gets what must be undone at the end. */
async function openApp(browser: Browser, options: OpenOptions, closing: (() => Promise<unknown>)[]): Promise<OpenApp> {
  const folder = await mkdtemp(join(tmpdir(), "served-"));
  closing.push(() => rm(folder, { recursive: true, force: true }));
  const file = join(folder, options.example ?? "coil.yaml");
  await writeFile(file, await coilText(options));

  const serving = await serveCoil({ file, appFolder: inject("appFolder"), examples, port: 0, lookEvery: 200 });
  closing.push(() => serving.close());
  const context = await browser.newContext({
    // A locale of the C kind makes the browser throw on its own number formats.
    locale: "en-US",
    viewport: options.viewport ?? { width: 1280, height: 800 },
    colorScheme: options.colorScheme ?? "light",
    reducedMotion: options.reducedMotion ?? "no-preference",
  });
  closing.push(() => context.close());
  context.setDefaultTimeout(patience);

  const seen: string[] = [];
  const expected: RegExp[] = [];
  const troubles = () => seen.filter((trouble) => !expected.some((pattern) => pattern.test(trouble)));
  context.on("weberror", (error) => seen.push(`uncaught in the page: ${error.error().stack ?? error.error().message}`));
  context.on("console", (message) => {
    if (message.type() === "error") seen.push(`console error: ${message.text()} (${message.location().url})`);
  });
  await context.route(
    (url) => !["data:", "blob:"].includes(url.protocol) && url.origin !== new URL(serving.address).origin,
    (route) => {
      seen.push(`request to elsewhere: ${route.request().url()}`);
      return route.abort();
    },
  );

  const page = await context.newPage();
  await page.goto(serving.address + (options.at ?? ""));
  return {
    page,
    address: serving.address,
    file,
    textOnDisk: () => readFile(file, "utf8"),
    expectTrouble: (pattern) => void expected.push(pattern),
    troubles,
  };
}

export const test = plain.extend<{ browser: Browser; open: Opener; app: OpenApp }>({
  browser: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads the names of the fixtures from this pattern
    async ({}, use) => {
      const browser = await launch(inject("browserPath"));
      await use(browser);
      await browser.close();
    },
    { scope: "file" },
  ],
  open: async ({ browser }, use) => {
    const closing: (() => Promise<unknown>)[] = [];
    const opened: OpenApp[] = [];
    await use(async (options = {}) => {
      const app = await openApp(browser, options, closing);
      opened.push(app);
      return app;
    });
    const troubles = opened.flatMap((app) => app.troubles());
    for (const close of closing.reverse()) await close();
    if (troubles.length > 0) throw new Error(`the page had trouble:\n${troubles.join("\n")}`);
  },
  app: async ({ open }, use) => use(await open()),
});
