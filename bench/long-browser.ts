/** A long record laid on the bench of the built app; beside it a CSV reader alone in the same browser. Each in a browser started for it. */
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { browserFlags, findBrowser } from "../scripts/browser.js";
import { serveCoil } from "../src/server/index.ts";
import type { LongRun } from "./long-run.ts";

/** Bundled it does not stand where it was written; it is run from the project's folder. */
const appFolder = join(process.cwd(), "dist/app");
const examples = join(process.cwd(), "examples");
const patience = { timeout: 300_000 };

/** Why the browser cannot be measured here; undefined where it can. */
export function whyNoBrowser(): string | undefined {
  if (findBrowser(process.env) === undefined) return "no browser was found: set CHROME_PATH to Chromium";
  return existsSync(join(appFolder, "index.html")) ? undefined : "the app is not built: run npm run build first";
}

export async function inBrowser(part: "ours" | "theirs", path: string): Promise<LongRun> {
  const browser = await chromium.launch({ executablePath: findBrowser(process.env) ?? "", args: browserFlags });
  try {
    return await (part === "ours" ? ours(browser, path) : theirs(browser, path));
  } finally {
    await browser.close();
  }
}

interface Timed {
  /** [ms] */
  readonly clock: number;
  readonly rows: number | undefined;
  readonly says: string;
}

async function ours(browser: Browser, path: string): Promise<LongRun> {
  const folder = mkdtempSync(join(tmpdir(), "long-log-"));
  const file = join(folder, "inkwell.yaml");
  copyFileSync(join(examples, "inkwell.yaml"), file);
  const serving = await serveCoil({ file, appFolder, examples, port: 0 });
  try {
    const page = await browser.newPage();
    await page.goto(`${serving.address}#bench`);
    await page.locator(".bench-room").waitFor();
    // Until the app has worked out its own coil, that would be measured too.
    await page.waitForTimeout(8000);
    return await measured(browser, page, async () => {
      await page.evaluate(watchBench);
      await page.getByLabel("Files of records").setInputFiles(path);
      return page.evaluate(() => (window as unknown as { long: Promise<Timed> }).long);
    });
  } finally {
    await serving.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** In the page: from the choice of the file until its record lies on the bench; the fit that would follow is stopped. */
function watchBench(): void {
  const line = document.querySelector(".working-line")!;
  const long = new Promise<Timed>((resolve) => {
    let began = 0;
    let read = 0;
    let messages = 0;
    document.addEventListener("change", () => (began = performance.now()), { capture: true, once: true });
    new MutationObserver((_, observer) => {
      const now = performance.now();
      messages++;
      if (read === 0 && /bursts/.test(line.textContent)) read = now;
      const figures = document.querySelector(".capture .figures-read");
      if (figures === null) return;
      observer.disconnect();
      line.querySelector("button")?.click();
      const carrier = figures.querySelector('[data-figure="capture.carrier"] td')?.textContent ?? "none";
      resolve({
        clock: now - began,
        rows: undefined,
        says:
          `reading ${((read - began) / 1000).toFixed(2)} s, analysis ${((now - read) / 1000).toFixed(2)} s; ` +
          `${messages} changes of the working line, carrier ${carrier}`,
      });
    }).observe(document.querySelector(".bench-room")!, {
      childList: true,
      subtree: true,
      characterData: true,
      attributes: true,
    });
  });
  Object.assign(window, { long });
}

async function theirs(browser: Browser, path: string): Promise<LongRun> {
  const page = await browser.newPage();
  await page.setContent("<input type='file' aria-label='file'>");
  await page.addScriptTag({ path: createRequire(import.meta.url).resolve("papaparse/papaparse.min.js") });
  return measured(browser, page, async () => {
    await page.evaluate(parseChosen);
    await page.getByLabel("file").setInputFiles(path);
    return page.evaluate(() => (window as unknown as { long: Promise<Timed> }).long);
  });
}

function parseChosen(): void {
  const input = document.querySelector("input")!;
  const { Papa } = window as unknown as { Papa: { parse(file: File, settings: object): void } };
  const long = new Promise<Timed>((resolve, reject) => {
    input.addEventListener("change", () => {
      const began = performance.now();
      let rows = 0;
      Papa.parse(input.files![0]!, {
        dynamicTyping: true,
        chunk: ({ data }: { data: readonly unknown[] }) => {
          rows += data.length;
        },
        complete: () => resolve({ clock: performance.now() - began, rows, says: "nothing kept" }),
        error: reject,
      });
    });
  });
  Object.assign(window, { long });
}

/** The work with what it took of the page's own process. */
async function measured(browser: Browser, page: Page, work: () => Promise<Timed>): Promise<LongRun> {
  page.setDefaultTimeout(patience.timeout);
  const session = await browser.newBrowserCDPSession();
  const processes = async () => {
    const { processInfo } = await session.send("SystemInfo.getProcessInfo");
    return processInfo.filter(({ type }) => type === "renderer");
  };
  const before = new Map(
    (await processes()).map(({ id, cpuTime }) => [id, { cpuTime, resident: residentOf(id, "VmRSS") }]),
  );
  const { clock, rows, says } = await work();
  const used = (await processes())
    .map(({ id, cpuTime }) => ({ id, processor: cpuTime - (before.get(id)?.cpuTime ?? 0) }))
    .reduce((most, one) => (one.processor > most.processor ? one : most));
  const held = before.get(used.id)?.resident;
  return {
    rows,
    clock: clock / 1000,
    processor: used.processor,
    resident: residentOf(used.id, "VmHWM"),
    says: held === undefined ? says : `${says}; ${held.toFixed(0)} MB before it`,
  };
}

/** Memory of another process now, or the most it ever had, where the system tells it. [MB] */
function residentOf(id: number, what: "VmRSS" | "VmHWM"): number | undefined {
  const status = `/proc/${id}/status`;
  const found = existsSync(status)
    ? new RegExp(`^${what}:\\s*(\\d+) kB`, "m").exec(readFileSync(status, "utf8"))
    : null;
  return found === null ? undefined : Number(found[1]) / 1024;
}
