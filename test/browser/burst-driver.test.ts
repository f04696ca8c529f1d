/** The Driver room: the diagram, its parts, the moments of a half-cycle. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { test } from "./app-coil.ts";
import { scan } from "./axe-scan.ts";

async function shown(page: Page): Promise<void> {
  await page.locator(".schematic [data-part='tank']").waitFor();
  await expect.poll(() => page.locator(".burst-studies[data-behind]").count()).toBe(0);
}

describe("the diagram", () => {
  test("tells the stress of a part in words, and lists what is known of it by key and by press", async ({
    openLectern: open,
  }) => {
    const { page } = await open({ at: "#driver" });
    await shown(page);
    const tank = page.locator(".schematic [data-part='tank']");
    expect(await tank.getAttribute("aria-label")).toMatch(/^tank capacitor; \d+ %, .* the limit: .*V of .*V/);
    expect(await page.locator(".schematic [data-greatest]").count()).toBe(1);
    await tank.focus();
    await page.keyboard.press("Enter");
    await expect
      .poll(() => page.locator(".part-panel").innerText())
      .toMatch(/Tank capacitor[\s\S]*bank, peak voltage of one/);
    await page.locator(".schematic [data-part='gate']").click();
    await expect.poll(() => page.locator(".part-panel").innerText()).toMatch(/Gate drive[\s\S]*gate, rise time/);
    await page.getByRole("button", { name: "Why gate, rise time?" }).first().click();
    await expect.poll(() => page.locator(".why-drawer").innerText()).toMatch(/Why gate, rise time\?[\s\S]*From/);
  });

  test("follows the setting of the sliders", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#driver" });
    await shown(page);
    const label = () => page.locator(".schematic [data-part='tank']").getAttribute("aria-label");
    const before = await label();
    await page.getByRole("link", { name: "Move the setting" }).click();
    await page.getByRole("slider", { name: "Bus voltage", exact: true }).fill("120");
    await page.getByRole("link", { name: /Driver/ }).click();
    await expect.poll(label).not.toBe(before);
    expect(await page.locator(".at-setting").innerText()).toMatch(/moved away from the file/);
  });
});

describe("a half-cycle", () => {
  test("is stepped by keys: the branch changes, the current turns, the energy goes to and fro", async ({
    openLectern: open,
  }) => {
    const { page } = await open({ at: "#driver" });
    await shown(page);
    const moment = page.getByRole("slider", { name: "Moment of the burst" });
    const way = () => page.locator(".flow").getAttribute("data-forward");
    await moment.focus();
    const first = await way();
    await moment.press("PageUp");
    // law: a half-cycle later the current runs the other way
    await expect.poll(way).not.toBe(first);
    const seen = new Set<string>();
    for (let n = 0; n < 24; n++) {
      await moment.press("ArrowRight");
      seen.add((await page.locator(".moment-player .says").innerText()).replace(/[\d.]+ A.*$/s, ""));
    }
    expect(seen.size).toBeGreaterThan(1);
    expect(await moment.getAttribute("aria-valuetext")).toMatch(/µs\. .* conducts .* A/);
    expect(await page.locator(".energy-bars tr").count()).toBe(5);
  });

  test("plays and pauses", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#driver" });
    await shown(page);
    const at = () => page.locator("#moment-title").innerText();
    const before = await at();
    await page.getByRole("button", { name: "Play" }).click();
    await expect.poll(at).not.toBe(before);
    await page.getByRole("button", { name: "Pause" }).click();
    const still = await at();
    await page.waitForTimeout(200);
    expect(await at()).toBe(still);
  });

  test("goes in stills for those who asked for no motion", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#driver", reducedMotion: "reduce" });
    await shown(page);
    await page.getByRole("button", { name: "Play" }).click();
    const seen = new Set<string>();
    const begun = Date.now();
    while (Date.now() - begun < 1500) {
      seen.add(await page.locator("#moment-title").innerText());
      await page.waitForTimeout(50);
    }
    expect(seen.size).toBeLessThanOrEqual(3);
    expect(seen.size).toBeGreaterThan(1);
  });
});

for (const colorScheme of ["light", "dark"] as const) {
  test(`axe finds no violation in ${colorScheme}, at 1280 and at 360`, async ({ openLectern: open }) => {
    const { page } = await open({ at: "#driver", colorScheme });
    await shown(page);
    expect(await scan(page)).toEqual([]);
    await page.setViewportSize({ width: 360, height: 740 });
    await shown(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect(await scan(page)).toEqual([]);
  });
}
