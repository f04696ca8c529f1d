/**
 * A record of a million rows in the room Bench; `COILWRIGHT_LONG_ROWS` sets another number. Some ten seconds, most of them for making it.
 * What it costs in time and memory is for `npm run bench long` to say.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, vi } from "vitest";
import { madeOf, writeLongRecord } from "../../bench/long-csv.ts";
import { inkwellText } from "./bench-records.ts";
import { test } from "./harness.ts";

const rows = Number(process.env["COILWRIGHT_LONG_ROWS"] ?? 1_000_000);
const patience = { timeout: 30_000 };
vi.setConfig({ testTimeout: 120_000 });

const folder = mkdtempSync(join(tmpdir(), "long-record-"));
const file = join(folder, "long.csv");
beforeAll(() => writeLongRecord(file, { rows, columns: 3, drive: "square" }));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Watched {
  /** What the working line said, in its order. */
  readonly says: string[];
  readonly shares: number[];
  /** What it said once Stop had been pressed. */
  readonly after: string[];
}

/** Watches the working line, and presses Stop once, as soon as it says `stopAt`. */
async function watch(page: Page, stopAt: RegExp | undefined): Promise<() => Promise<Watched>> {
  await page.evaluate((pattern) => {
    const seen = { says: [] as string[], shares: [] as number[], after: [] as string[] };
    let isStopped = false;
    const line = document.querySelector(".working-line")!;
    const look = () => {
      const says = line.querySelector("span")?.textContent ?? "";
      const list = isStopped ? seen.after : seen.says;
      if (says !== "" && says !== list.at(-1)) list.push(says);
      const share = line.querySelector("progress")?.value;
      if (share !== undefined && share !== seen.shares.at(-1)) seen.shares.push(share);
      if (isStopped || pattern === undefined || !new RegExp(pattern).test(says)) return;
      isStopped = true;
      line.querySelector("button")?.click();
    };
    const observer = new MutationObserver(look);
    observer.observe(line, { childList: true, subtree: true, characterData: true, attributes: true });
    Object.assign(window, {
      watched: () => {
        observer.disconnect();
        return seen;
      },
    });
  }, stopAt?.source);
  return () => page.evaluate(() => (window as unknown as { watched: () => Watched }).watched());
}

const idle = (page: Page) => page.locator(".working-line[data-idle]").waitFor({ ...patience, state: "attached" });
const take = (page: Page) => page.getByLabel("Files of records").setInputFiles(file);
const figure = (page: Page, id: string) => page.locator(`.capture [data-figure="${id}"] td`).first().innerText();

describe("a long record", () => {
  test("is read with progress, looked at with progress, and either can be stopped", async ({ open }) => {
    const { page } = await open({ text: inkwellText, at: "#bench" });
    await page.locator(".bench-room").waitFor();

    const whileRead = await watch(page, /^reading long\.csv/);
    await take(page);
    await page.locator(".notice", { hasText: "Reading long.csv was stopped" }).waitFor(patience);
    await idle(page);
    expect((await whileRead()).after.join()).not.toMatch(/bursts/);
    expect(await page.locator(".capture").count()).toBe(0);

    const whileLooked = await watch(page, /burst 2 of/);
    await take(page);
    await page.locator(".notice", { hasText: "Reading long.csv was stopped" }).waitFor(patience);
    await idle(page);
    const { says, shares, after } = await whileLooked();
    expect(says[0]).toMatch(/^reading long\.csv/);
    expect(shares.length).toBeGreaterThan(3);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(says.slice(-2).join()).toMatch(/looking for bursts in long\.csv: CH1.*burst 2 of/);
    // What was begun when it was pressed is ended, nothing more is begun.
    expect(after.length).toBeLessThanOrEqual(1);
    expect(await page.locator(".capture").count()).toBe(0);

    const toTheEnd = await watch(page, /^fitting|^trying|^moving/);
    await take(page);
    await page.locator("[data-record='long.csv']").waitFor(patience);
    await idle(page);
    expect((await toTheEnd()).says.join()).toMatch(/CH1, burst 8 of 8.*CH2, burst 1 of/);
    const before = await figure(page, "capture.repetitionRate");
    // law: the record's own making; six digits are shown of the one, and the interval of the other is a tenth of what is allowed here
    expect(Math.abs(Number.parseFloat(before) / madeOf.rate - 1)).toBeLessThan(1e-5);
    const carrier = await figure(page, "capture.carrier");
    expect(carrier).toMatch(/ kHz/);
    expect(Math.abs((1e3 * Number.parseFloat(carrier)) / madeOf.carrier - 1)).toBeLessThan(5e-4);

    await watch(page, /CH1, burst 2 of/);
    await page.getByLabel("CH2").first().selectOption("pickupLoop");
    await page.locator(".notice", { hasText: "it is as it was before" }).waitFor(patience);
    await idle(page);
    expect(await page.getByLabel("CH2").first().inputValue()).toBe("unknown");
    expect(await figure(page, "capture.repetitionRate")).toBe(before);
  });
});
