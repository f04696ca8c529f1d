/** The room Bench: a record laid over its prediction, figures, adoption and undo, the log, the bring-up. */
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect, vi } from "vitest";
import { can, undo } from "./app-gestures.ts";
import { scan } from "./axe-scan.ts";
import { coilOf, csvOf, drop, inkwellText, withLowCapacitor } from "./bench-records.ts";
import { type OpenOptions, test } from "./harness.ts";

const bench: OpenOptions = { text: inkwellText, at: "#bench" };
const bus = 100;
/** A fit solves the coil some sixty times. */
const long = { timeout: 40_000 };
const low = { name: "low.csv", text: csvOf(withLowCapacitor(), { bus }) };

const room = (page: Page) => page.locator(".bench-room");
const verdict = (page: Page) => page.locator(".verdict > p");
vi.setConfig({ testTimeout: 120_000 });

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const toPage = (page: Page, name: string) =>
  page.getByRole("group", { name: "Pages of the bench" }).getByRole("button", { name, exact: true }).click();

/** Waits until nothing is being read or fitted. */
async function rested(page: Page): Promise<void> {
  await expect.poll(() => page.locator(".working-line[data-idle]").count(), long).toBe(1);
  await expect.poll(() => page.locator(".bench-studies[data-behind]").count(), long).toBe(0);
}

/** Drops the record with the low capacitor and says how it was made. */
async function layDown(page: Page): Promise<void> {
  await room(page).waitFor();
  await drop(page, ".bench-room", [low]);
  await page.locator("[data-record='low.csv']").waitFor(long);
  await field(page, "made with the coil").selectOption("low");
  await field(page, "bus voltage").fill("100 V");
  await field(page, "bus voltage").press("Enter");
  await expect.poll(() => verdict(page).innerText(), long).toMatch(/Most likely: tank capacitor/);
  await rested(page);
}

const text = async (page: Page) => {
  if ((await page.locator("textarea").count()) === 0)
    await page.getByRole("button", { name: "Text", exact: true }).click();
  return page.locator("textarea").inputValue();
};

describe("a record", () => {
  // law: the record was simulated with a capacitor 8 % low, an on-time of 70 µs and a bus of 100 V
  test("is laid over its prediction, compared, adopted, undone and logged", async ({ open }) => {
    const { page, file } = await open(bench);
    await layDown(page);
    const figure = (id: string) => page.locator(`.capture [data-figure="${id}"] td`).first().innerText();
    expect(await figure("capture.onTime")).toMatch(/^70\.\d+ µs/);
    expect(await page.locator(".dialect").innerText()).toMatch(/CSV, comma between columns, decimal point/);
    const line = (kind: string) => page.locator(`[data-line='${kind}']`).getAttribute("d");
    expect((await line("measured"))?.length).toBeGreaterThan(500);
    expect((await line("predicted"))?.length).toBeGreaterThan(500);
    // the fit leaves less than the drawing does
    const left = async () =>
      Number(/is (\d+) % of the record/.exec(await page.locator(".record-pictures").innerText())?.[1]);
    const fitted = await left();
    expect(fitted).toBeLessThan(12);
    await page.getByRole("button", { name: "As drawn" }).click();
    expect(await left()).toBeGreaterThan(3 * fitted);
    await page.getByRole("button", { name: "pickup (loop)" }).click();
    await expect.poll(() => page.locator(".record-pictures").innerText(), long).toMatch(/scaled to fit/);
    expect(await page.locator("[data-cause]").first().getAttribute("data-cause")).toBe("tank-capacitor");
    const row = await page.locator(".drawn-table [data-figure='match.poles.lower']").innerText();
    expect(row).toMatch(/kHz\s+[\d.]+\skHz\s+±[\d.]+\s%\s+\+\d/);

    await page.getByRole("button", { name: /^Adopt/ }).click();
    const adopted = await text(page);
    const each =
      /each: ([\d.]+) nF ± [\d.]+ nF \(measured\).*# .*each from 1 record, \d{4}-\d\d-\d\d: [\d.]+ nF, before 68 nF/.exec(
        adopted,
      );
    expect(each).not.toBeNull();
    expect(Math.abs(Number(each?.[1]) / (0.92 * 68) - 1)).toBeLessThan(0.02);
    await rested(page);
    await expect.poll(() => verdict(page).innerText(), long).toMatch(/agree with the drawing/);
    await undo(page).click();
    expect(await text(page)).toBe(inkwellText);
    expect(await can(undo(page))).toBe(false);

    await toPage(page, "Log");
    const kinds = () =>
      page.locator("[data-entry]").evaluateAll((all) => all.map((one) => one.getAttribute("data-entry")).join(" "));
    await expect.poll(kinds).toMatch(/^withdrawn adopted match( match)*$/);
    const log = await readFile(file.replace(/\.yaml$/, ".bench.jsonl"), "utf8");
    expect(log.split("\n")[0]).toBe('{"coilwrightLog":1}');
    expect(log.trim().split("\n").length).toBe(1 + (await kinds()).split(" ").length);
  });

  test("takes its scale, its channels and its dialect from a person", async ({ open }) => {
    const { page } = await open(bench);
    await room(page).waitFor();
    const shown = csvOf(withLowCapacitor(), { bus }, { asVoltage: true }).replaceAll(",", ";").replaceAll(".", ",");
    await drop(page, ".bench-room", [{ name: "volts.csv", text: shown }]);
    await rested(page);
    expect(await page.locator(".dialect").innerText()).toMatch(/semicolon between columns, decimal comma/);
    await field(page, "ratio 1 :").fill("1000");
    await field(page, "ratio 1 :").press("Enter");
    await field(page, "burden").fill("5.1");
    await field(page, "burden").press("Enter");
    await expect.poll(() => page.locator(".track-name").first().textContent(), long).toMatch(/primary current .*, A/);
    await field(page, "burden").fill("5 V");
    await field(page, "burden").press("Enter");
    await expect.poll(() => page.locator(".capture [role='alert']").innerText()).toMatch(/expected/);
    await field(page, "burden").press("Escape");
    await page.locator(".dialect-form summary").click();
    await field(page, "unit of CT").fill("mV");
    await field(page, "unit of CT").press("Enter");
    await expect.poll(() => page.locator(".track-name").first().textContent(), long).toMatch(/primary current .*, mA/);
    await field(page, "decimal").selectOption(".");
    await expect.poll(() => page.locator(".dialect").innerText(), long).toMatch(/decimal point/);
    await rested(page);
  });

  test("that fits no cause cannot be adopted, and says why", async ({ open }) => {
    const { page } = await open(bench);
    await room(page).waitFor();
    await drop(page, ".bench-room", [{ name: "other.csv", text: csvOf(coilOf("thimble"), { bus: 40 }) }]);
    await page.locator("[data-record='other.csv']").waitFor(long);
    await field(page, "bus voltage").fill("100 V");
    await field(page, "bus voltage").press("Enter");
    await page.locator("[data-rule='match-poor']").waitFor(long);
    await rested(page);
    const adopt = page.getByRole("button", { name: /^Adopt/ });
    expect(await adopt.getAttribute("aria-disabled")).toBe("true");
    expect(await page.locator("#adopt-why").innerText()).toMatch(/nothing is adopted from this fit: .*χ²/);
    await adopt.click({ force: true });
    expect(await text(page)).toBe(inkwellText);
  });

  test("that is no record says so where it lies, and the others stay", async ({ open }) => {
    const { page } = await open(bench);
    await room(page).waitFor();
    await drop(page, ".bench-room", [
      { name: "picture.png", text: "\u0089PNG\u0000\u0001\u0002 not samples \u0000" },
      { name: "torn.csv", text: "Time [s],CT [A]\n0,1\n1e-7,zwei\n2e-7," },
    ]);
    await page.locator("[data-record='torn.csv']").waitFor(long);
    await rested(page);
    for (const name of ["picture.png", "torn.csv"]) {
      const says = await page.locator(`[data-record='${name}'] .finding`).first().innerText();
      expect(says.length).toBeGreaterThan(20);
    }
    await page.getByRole("button", { name: "Take picture.png off the bench" }).click();
    expect(await page.locator(".capture").count()).toBe(1);
  });

  test("is stopped in the middle, and leaves nothing", async ({ open }) => {
    const { page } = await open(bench);
    await room(page).waitFor();
    await page.locator(".bench-room").evaluate((element) => {
      const rows = Array.from(
        { length: 20_000 },
        (_, n) => `${(n * 1e-7).toExponential(5)},${Math.sin(n).toFixed(4)}\n`,
      ).join("");
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["Time [s],loop [V]\n", ...Array.from({ length: 900 }, () => rows)], "long.csv"));
      element.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
    });
    await page.locator(".working-line progress").waitFor();
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    await rested(page);
    await expect.poll(() => page.locator(".notice").innerText()).toMatch(/long\.csv was stopped/);
    expect(await page.locator(".capture").count()).toBe(0);
  });
});

test("a coil file that is dropped in the room is still opened as one", async ({ open }) => {
  const { page } = await open(bench);
  await room(page).waitFor();
  await drop(page, ".bench-room", [{ name: "renamed.yaml", text: inkwellText.replace(/^name:.*/m, "name: Renamed") }]);
  await expect.poll(() => page.locator("h1").innerText()).toBe("Renamed");
});

test("without a server the log is kept in the browser, and taken away as a copy", async ({ open }) => {
  const { page, expectTrouble } = await open(bench);
  expectTrouble(/404/);
  await page.route("**/api/**", (route) => route.fulfill({ status: 404, body: "" }));
  await page.reload();
  await room(page).waitFor();
  await toPage(page, "Bring-up");
  const bank = page.locator("[data-step='bank']");
  await bank.waitFor(long);
  for (const box of await page.locator(".before-touch input").all()) await box.check();
  await bank.getByLabel(/^reading/).fill("45.3 nF");
  await bank.getByLabel(/^reading/).press("Enter");
  await bank.locator(".comparison").waitFor(long);
  // the worker that keeps the app at hand would ask the server behind the test's back
  await page.evaluate(async () => {
    for (const one of await navigator.serviceWorker.getRegistrations()) await one.unregister();
  });
  await page.reload();
  await room(page).waitFor();
  await toPage(page, "Log");
  await expect.poll(() => page.locator("[data-entry='reading']").count(), long).toBe(1);
  const [copy] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Take a copy" }).click(),
  ]);
  expect(copy.suggestedFilename()).toBe("inkwell.bench.jsonl");
  expect(await readFile(await copy.path(), "utf8")).toMatch(/^\{"coilwrightLog":1\}\n\{"kind":"reading"/);
});

test("everything is done by keys alone", async ({ open }) => {
  const { page } = await open(bench);
  await room(page).waitFor();
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: "Pick records…" }).first().focus();
  await page.keyboard.press("Enter");
  await (await chooser).setFiles([{ name: low.name, mimeType: "text/csv", buffer: Buffer.from(low.text) }]);
  await page.locator("[data-record='low.csv']").waitFor(long);
  await field(page, "bus voltage").focus();
  await page.keyboard.type("100 V");
  await page.keyboard.press("Enter");
  await expect.poll(() => verdict(page).innerText(), long).toMatch(/Most likely: tank capacitor/);
  await rested(page);
  const slider = page.getByRole("slider", { name: "Time read in the record" });
  await slider.focus();
  const before = await slider.getAttribute("aria-valuetext");
  await page.keyboard.press("PageDown");
  expect(await slider.getAttribute("aria-valuetext")).not.toBe(before);
  const path = () => page.locator("[data-line='measured']").getAttribute("d");
  const whole = await path();
  await page.keyboard.press("+");
  await expect.poll(path).not.toBe(whole);
  await page.keyboard.press("0");
  await expect.poll(path).toBe(whole);
  await page.getByRole("button", { name: /^Adopt/ }).focus();
  await page.keyboard.press("Enter");
  expect(await can(undo(page))).toBe(true);
  await page.keyboard.press("Control+z");
  expect(await text(page)).toBe(inkwellText);
});

describe("the bring-up", () => {
  test("opens its fields after the checks, and names the causes of a reading outside", async ({ open }) => {
    const { page } = await open(bench);
    await room(page).waitFor();
    await toPage(page, "Bring-up");
    await expect.poll(() => page.locator("[data-stage]").count(), { timeout: 20_000 }).toBe(10);
    const bank = page.locator("[data-step='bank']");
    const reading = bank.getByLabel(/^reading/);
    expect(await reading.isDisabled()).toBe(true);
    for (const box of await page.locator(".before-touch input").all()) await box.check();
    await reading.fill("41 nF");
    await reading.press("Enter");
    await expect.poll(() => bank.locator(".comparison").innerText(), long).toMatch(/below the interval, by .*nF/);
    expect(await bank.locator(".comparison li").count()).toBeGreaterThan(1);
    // law: the bank of the file, as drawn, lies inside its own interval
    await reading.fill("45.33");
    await reading.press("Enter");
    await expect.poll(() => bank.locator("[role='alert']").innerText(), long).toMatch(/unit.*expected/s);
    await reading.fill("45.33 nF");
    await reading.press("Enter");
    await expect.poll(() => bank.locator(".comparison").innerText(), long).toMatch(/inside the interval/);
    await page.locator("[data-stage='low-bus']").click();
    expect(await page.locator(".before-touch input:checked").count()).toBe(0);
    await page.reload();
    await room(page).waitFor();
    await toPage(page, "Bring-up");
    await expect.poll(() => bank.locator(".comparison").innerText(), long).toMatch(/inside/);
  });

  test("compares a record that is dropped on its step", async ({ open }) => {
    const { page } = await open(bench);
    await room(page).waitFor();
    await toPage(page, "Bring-up");
    await page.locator("[data-stage='low-bus']").click();
    const step = page.locator("[data-step^='low-current']").last();
    const id = await step.getAttribute("data-step");
    await drop(page, `[data-step='${id}']`, [low]);
    await expect.poll(() => step.locator("[role='alert']").innerText()).toMatch(/tick what stands before every touch/);
    for (const box of await page.locator(".before-touch input").all()) await box.check();
    await drop(page, `[data-step='${id}']`, [low]);
    await expect.poll(() => step.locator(".comparison").innerText(), long).toMatch(/from low\.csv/);
    await rested(page);
  });
});

for (const colorScheme of ["light", "dark"] as const) {
  test(`axe finds no violation in ${colorScheme}, at 1280 and at 360`, async ({ open }) => {
    const { page } = await open({ ...bench, colorScheme });
    await layDown(page);
    const look = async () => {
      for (const name of ["Records", "Bring-up", "Log"]) {
        await toPage(page, name);
        if (name === "Bring-up") await page.locator(".stages").waitFor({ timeout: 20_000 });
        await rested(page).catch(() => undefined);
        expect(await scan(page)).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
      }
    };
    await look();
    await page.setViewportSize({ width: 360, height: 740 });
    await look();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });
}

describe("without a record", () => {
  test("one is made up to practise on, fitted, explained, and never adopted or logged", async ({ open }) => {
    const { page } = await open(bench);
    await page.getByRole("button", { name: "Make one up to practise" }).click(long);
    await page.locator("[data-record='practice-1.csv']").waitFor(long);
    await expect.poll(() => verdict(page).innerText(), long).toMatch(/Most likely: tank capacitor/);
    await rested(page);
    await page.getByText("Made up for practice. What had been changed?").click();
    expect(await page.locator(".capture").innerText()).toContain("the tank capacitor was 8 % low");
    expect(await page.getByRole("button", { name: /^Adopt/ }).getAttribute("aria-disabled")).toBe("true");
    expect(await page.locator("#adopt-why").innerText()).toContain("made up for practice");
    expect(await page.getByRole("button", { name: "Write this fit into the log" }).count()).toBe(0);
    await toPage(page, "Log");
    expect(await page.locator(".bench-log").innerText()).not.toContain("practice-1.csv");
  });
});
