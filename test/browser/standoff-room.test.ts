/** The room Stand-off: the line, the drawings, touch that is never a permission, hazards taken on by name. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { test } from "./app-coil.ts";
import { scan } from "./axe-scan.ts";

async function shown(page: Page): Promise<void> {
  await page.locator(".floor img").first().waitFor({ timeout: 20_000 });
}

describe("the room Stand-off", () => {
  test("says the line, what decides it and what is not known", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#standoff" });
    await shown(page);
    expect(await page.locator(".line-says").innerText()).toMatch(/Bystanders at [\d.]+\sm or more from the axis/);
    expect(await page.locator(".line-table tr[data-decides]").count()).toBe(1);
    expect(await page.locator(".floor img").first().getAttribute("alt")).toMatch(/Plan of the room from above/);
    expect(await page.locator(".cautions dt").count()).toBeGreaterThan(8);
  });

  test("tells touch by bands, and nowhere grants anything", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#standoff" });
    await shown(page);
    const words = await page.locator(".standoff-room").innerText();
    expect(words).toMatch(/never a permission/);
    expect(words).toMatch(/no published threshold/);
    expect(words).toMatch(/skin effect does not protect/);
    expect(words).not.toMatch(/\b(is|are) (safe|harmless|allowed|compliant)\b/i);
  });

  test("writes into the file that a hazard is taken on, and takes it back with undo", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#standoff" });
    await shown(page);
    const box = page.getByRole("checkbox", { name: /^fire/ });
    await box.check();
    await page.keyboard.press("Control+e");
    await expect.poll(() => page.locator("textarea").inputValue()).toMatch(/acknowledged: \[ ?fire ?\]/);
    await page.keyboard.press("Control+e");
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => box.isChecked()).toBe(false);
  });

  test("answers why", { timeout: 60_000 }, async ({ openLectern: open }) => {
    const { page } = await open({ at: "#standoff" });
    await shown(page);
    await page.locator("[data-figure='standoff.audience'] .why").click();
    await expect
      .poll(() => page.locator(".why-drawer").innerText(), { timeout: 50_000 })
      .toMatch(/Why[\s\S]*line[\s\S]*From/i);
  });

  for (const colorScheme of ["light", "dark"] as const) {
    test(`axe finds no violation in ${colorScheme}`, async ({ openLectern: open }) => {
      const { page } = await open({ at: "#standoff", colorScheme });
      await shown(page);
      expect(await scan(page)).toEqual([]);
    });
  }

  test("nothing is wider than a small screen", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#standoff", viewport: { width: 360, height: 740 } });
    await shown(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });
});
