/** The Burst room: sliders that change no file, cursors and the ledger at them, zoom, taking the picture away. */
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { lecternText } from "../views/coil-of-example.ts";
import { test } from "./app-coil.ts";
import { can, undo } from "./app-gestures.ts";
import { scan } from "./axe-scan.ts";

/** Waits until a burst is shown and nothing of it is behind. */
async function shown(page: Page): Promise<void> {
  await page.locator("[data-track='primaryCurrent']").waitFor();
  await expect.poll(() => page.locator(".burst-studies[data-behind]").count()).toBe(0);
}

const slider = (page: Page, name: string) => page.getByRole("slider", { name, exact: true });
const exact = (page: Page, name: string) => page.getByRole("textbox", { name: `${name}, exact value` });
const figure = async (page: Page, id: string) =>
  (await page.locator(`[data-figure="${id}"] .value`).innerText()).trim();
const joules = (text: string | undefined) => {
  const [, number = "", prefix = ""] = /(−?[\d.]+) ([mµnk]?)J/.exec(text ?? "") ?? [];
  return Number(number.replace("−", "-")) * ({ m: 1e-3, µ: 1e-6, n: 1e-9, k: 1e3 }[prefix] ?? 1);
};

describe("the sliders", () => {
  test("answer at once without changing the file, and write into it as one step", async ({ openLectern: open }) => {
    const { page, textOnDisk } = await open({ at: "#burst" });
    await shown(page);
    const before = await figure(page, "burst.peakPrimaryCurrent");
    await slider(page, "On-time").fill("0.000060");
    await expect.poll(() => figure(page, "burst.peakPrimaryCurrent")).not.toBe(before);
    await shown(page);
    await exact(page, "Rate").fill("120");
    await exact(page, "Rate").press("Enter");
    await expect.poll(() => slider(page, "Rate").inputValue()).toBe("120");
    await slider(page, "Bus voltage").fill("100");
    // law: at less voltage less current
    await expect
      .poll(async () => Number.parseFloat(await figure(page, "burst.peakPrimaryCurrent")))
      .toBeLessThan(Number.parseFloat(before));
    expect(await can(undo(page))).toBe(false);

    await page.getByRole("button", { name: "Write this setting into the file" }).click();
    expect(await can(undo(page))).toBe(true);
    await page.getByRole("button", { name: "Text", exact: true }).click();
    const text = () => page.locator("textarea").inputValue();
    expect(await text()).toMatch(/onTime: 60 µs\n\s+rate: 120 Hz\n/);
    // what cannot be written stays where it was put
    expect(await slider(page, "Bus voltage").inputValue()).toBe("100");
    await undo(page).click();
    expect(await text()).toBe(lecternText);
    expect(await can(undo(page))).toBe(false);
    expect(await textOnDisk()).toBe(lecternText);
    await page.getByRole("button", { name: "Back to the file", exact: true }).click();
    await expect.poll(() => figure(page, "burst.peakPrimaryCurrent")).toBe(before);
  });

  test("refuse what is no time, in words, and go back", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    await exact(page, "On-time").fill("80 volts");
    await exact(page, "On-time").press("Enter");
    await expect.poll(() => page.locator(".setting [role='alert']").innerText()).toMatch(/expected/);
    await exact(page, "On-time").press("Escape");
    expect(await exact(page, "On-time").inputValue()).toBe("110 µs");
    await exact(page, "On-time").fill("0.2 ms");
    await exact(page, "On-time").press("Enter");
    await expect.poll(() => page.locator(".settings").innerText()).toMatch(/longer than the interrupter's own limit/);
  });

  test("take the streamer off, add modes and turn the sense around", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    await page.getByRole("checkbox", { name: /streamer/ }).uncheck();
    await expect.poll(() => page.locator("[data-part='streamer'] td").first().innerText()).toBe("0 J");
    const before = await figure(page, "burst.peakTopVoltage");
    await page.getByRole("radio", { name: "3", exact: true }).check();
    await expect.poll(() => figure(page, "burst.peakTopVoltage")).not.toBe(before);
    await page.getByRole("checkbox", { name: /reversed/ }).check();
    await expect.poll(() => page.locator("[data-rule='feedback-works-against']").count()).toBeGreaterThan(0);
  });

  // law: a screen draws sixty frames a second, so that what a hand does may hold the page for 16 ms; counted is the thread's own time
  test("hold the page's thread for less than a frame", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
    const spent = async () => {
      const { metrics } = await devtools.send("Performance.getMetrics");
      const counted = ["ScriptDuration", "LayoutDuration", "RecalcStyleDuration"];
      return metrics.reduce((sum, { name, value }) => (counted.includes(name) ? sum + value : sum), 0);
    };
    const before = await spent();
    const moves = 30;
    await page.evaluate(async (count) => {
      const input = document.querySelector<HTMLInputElement>(".setting input[type='range']");
      for (let n = 0; n < count && input !== null; n++) {
        input.value = String(60e-6 + n * 1e-6);
        input.dispatchEvent(new Event("input", { bubbles: true }));
        await new Promise((done) => setTimeout(done, 50));
      }
    }, moves);
    await shown(page);
    expect(((await spent()) - before) / moves).toBeLessThan(0.016);
  });
});

describe("the waveforms", () => {
  test("are read by two cursors, and the ledger follows the active one", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    const given = async () => joules(await page.locator("[data-part='given'] td").first().innerText());
    const cursor = page.getByRole("slider", { name: "Cursor A" });
    await cursor.focus();
    await cursor.press("End");
    const atEnd = await given();
    await cursor.press("Home");
    // law: before the burst nothing was given
    expect(await given()).toBe(0);
    for (let n = 0; n < 3; n++) await cursor.press("PageUp");
    expect(await cursor.getAttribute("aria-valuetext")).toMatch(
      /µs: primary current .* top-load voltage .* upper gates/,
    );
    // law: the shares are the whole
    const rows = page.locator(".shares tbody tr");
    const parts = await rows.evaluateAll((all) => all.map((row) => row.querySelector("td")?.textContent ?? ""));
    const sum = parts.map(joules).reduce((a, b) => a + b, 0);
    expect(sum / (await given())).toBeCloseTo(1, 2);
    expect(atEnd).toBeGreaterThan(0);
    await page.getByRole("slider", { name: "Cursor B" }).focus();
    await page.keyboard.press("End");
    expect(await given()).toBeCloseTo(atEnd, 6);
    await expect
      .poll(() => page.locator(".readings tbody tr").first().innerText())
      .toMatch(/time\s+.* µs\s+.* µs\s+.* µs\s+.*Hz/);
  });

  test("are zoomed by wheel, keys and buttons, panned by a drag, and a press places the cursor", async ({
    openLectern: open,
  }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    const path = () => page.locator("[data-track='primaryCurrent']").getAttribute("d");
    const ticks = () => page.locator(".waves").first().locator(".tick").allTextContents();
    const whole = await path();
    const field = page.locator(".wave-field");
    const box = await field.boundingBox();
    if (box === null) throw new Error("no waveforms");
    await page.mouse.move(box.x + 300, box.y + 150);
    await page.mouse.wheel(0, -900);
    await expect.poll(path).not.toBe(whole);
    const zoomed = await ticks();
    await page.mouse.down();
    await page.mouse.move(box.x + 200, box.y + 150, { steps: 4 });
    await page.mouse.up();
    await expect.poll(ticks).not.toEqual(zoomed);
    const reading = page.locator("[data-reading='time-A']");
    const before = await reading.innerText();
    await page.mouse.click(box.x + 400, box.y + 150);
    await expect.poll(() => reading.innerText()).not.toBe(before);
    await page.getByRole("button", { name: "Whole burst" }).click();
    await expect.poll(path).toBe(whole);
    const cursor = page.getByRole("slider", { name: "Cursor A" });
    await cursor.focus();
    await cursor.press("h");
    // a half-cycle of a coil near 200 kHz is some microseconds long: few samples are left in view
    await expect.poll(async () => ((await path()) ?? "").length).toBeLessThan(((whole ?? "").length * 1) / 3);
    await cursor.press("0");
    await expect.poll(path).toBe(whole);
    await page.getByRole("button", { name: "Envelope" }).click();
    await expect.poll(() => page.locator(".readings").innerText()).toMatch(/peaks of primary current/);
  });

  test("are zoomed by two fingers", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    const path = () => page.locator("[data-track='primaryCurrent']").getAttribute("d");
    const whole = await path();
    await page.locator(".wave-field").evaluate((field) => {
      const { left, top } = field.getBoundingClientRect();
      field.setPointerCapture = () => {};
      const finger = (type: string, pointerId: number, x: number) =>
        field.dispatchEvent(
          new PointerEvent(type, { pointerId, pointerType: "touch", clientX: left + x, clientY: top + 150, button: 0 }),
        );
      finger("pointerdown", 11, 300);
      finger("pointerdown", 12, 340);
      for (let n = 1; n <= 5; n++) {
        finger("pointermove", 11, 300 - 20 * n);
        finger("pointermove", 12, 340 + 20 * n);
      }
      finger("pointerup", 11, 200);
      finger("pointerup", 12, 440);
    });
    await expect.poll(path).not.toBe(whole);
  });

  test("are taken away as SVG and CSV, as they are shown", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst" });
    await shown(page);
    const take = async (name: string) => {
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name, exact: true }).click(),
      ]);
      return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
    };
    const svg = await take("SVG");
    expect(svg.name).toBe("coil-burst.svg");
    expect(svg.text).toMatch(/^<svg [\s\S]*primary current, A[\s\S]*<\/svg>\s*$/);
    const all = (await take("CSV")).text.split("\n").length;
    await page.getByRole("button", { name: "Half-cycle", exact: true }).click();
    const few = await take("CSV");
    expect(few.text.split("\n")[0]).toContain("time_s,primary_current_A");
    expect(few.text.split("\n").length).toBeLessThan(all / 4);
  });
});

describe("a file that lacks a section", () => {
  const without = (section: string) =>
    lecternText.replace(new RegExp(`^${section}:[\\s\\S]*?(?=^[a-z]+:|$(?![\\s\\S]))`, "m"), "");

  test("says what is needed, and shows what can be shown", async ({ open }) => {
    const { page } = await open({ text: without("supply"), at: "#burst" });
    await expect.poll(() => page.locator(".missing").innerText()).toMatch(/No burst can be shown yet[\s\S]*supply/);
    await page.getByRole("link", { name: /Driver/ }).click();
    await expect.poll(() => page.locator(".schematic").textContent()).toMatch(/not in file/);
    expect(await page.locator("[data-figure='gate.riseTime']").count()).toBe(1);
  });

  test("without an interrupter the sliders give one, and write it whole", async ({ open }) => {
    const { page } = await open({ text: without("interrupter"), at: "#burst" });
    await page.locator(".missing").waitFor();
    await exact(page, "On-time").fill("70 µs");
    await exact(page, "On-time").press("Enter");
    await page.locator("[data-track='primaryCurrent']").waitFor();
    // nothing is guessed: a rate has to be given too
    expect(
      await page.getByRole("button", { name: "Write this setting into the file" }).getAttribute("aria-disabled"),
    ).toBe("true");
    await exact(page, "Rate").fill("150 Hz");
    await exact(page, "Rate").press("Enter");
    await page.getByRole("button", { name: "Write this setting into the file" }).click();
    await page.getByRole("button", { name: "Text", exact: true }).click();
    expect(await page.locator("textarea").inputValue()).toMatch(/interrupter:[\s\S]*onTime: 70 µs[\s\S]*rate: 150 Hz/);
  });
});

for (const colorScheme of ["light", "dark"] as const) {
  test(`axe finds no violation in ${colorScheme}, at 1280 and at 360`, async ({ openLectern: open }) => {
    const { page } = await open({ at: "#burst", colorScheme });
    await shown(page);
    expect(await scan(page)).toEqual([]);
    await page.setViewportSize({ width: 360, height: 740 });
    await shown(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect(await scan(page)).toEqual([]);
  });
}
