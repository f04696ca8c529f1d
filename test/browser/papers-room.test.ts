/** The room Papers: sheets as they print and as files; teaching pictures, played, presented and handed on. */
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { test } from "./app-coil.ts";
import { scan } from "./axe-scan.ts";

async function sheetsShown(page: Page): Promise<void> {
  await page.locator(".sheet-pages img").first().waitFor();
}

async function picturesShown(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Teaching pictures" }).click();
  await page.locator(".picture svg").waitFor();
}

/** What a press hands over. */
async function handedOver(page: Page, press: () => Promise<void>): Promise<{ name: string; bytes: Buffer }> {
  const waiting = page.waitForEvent("download", { timeout: 30_000 });
  await press();
  const download = await waiting;
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

describe("the sheets", () => {
  test("are shown as they print and handed over as PDF, at true size", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers" });
    await sheetsShown(page);
    await page.getByRole("button", { name: /^Winding sheet/ }).click();
    const press = () => page.getByRole("button", { name: "PDF", exact: true }).click();
    const a4 = await handedOver(page, press);
    expect(a4.name).toBe("winding-sheet.pdf");
    expect(a4.bytes.subarray(0, 5).toString()).toBe("%PDF-");
    // published: ISO 216, A4 is 210 mm × 297 mm: 595.2756 × 841.8898 points
    expect(a4.bytes.toString("latin1")).toMatch(/\/MediaBox \[0 0 595\.275\d* 841\.889\d*\]/);
    await page.getByLabel("Paper").selectOption("letter");
    await expect.poll(() => page.locator(".sheets[data-behind]").count(), { timeout: 20_000 }).toBe(0);
    const letter = await handedOver(page, press);
    expect(letter.bytes.toString("latin1")).toContain("/MediaBox [0 0 612 792]");
  });

  test("go as one ZIP, and hold back the show sheet until hazards are acknowledged", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers" });
    await sheetsShown(page);
    await page.getByRole("button", { name: /^Show-day sheet/ }).click();
    await page.locator(".sheet-blocks li").first().waitFor();
    expect(await page.locator(".sheet-pages img").count()).toBe(0);
    const all = await handedOver(page, () => page.getByRole("button", { name: "All sheets as one ZIP" }).click());
    expect(all.bytes.subarray(0, 2).toString()).toBe("PK");
    const names = all.bytes.toString("latin1");
    expect(names).toContain("winding-sheet.pdf");
    expect(names).not.toContain("show-day.pdf");
  });
});

describe("the teaching pictures", () => {
  test("are stepped through, played and paused", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers" });
    await sheetsShown(page);
    await picturesShown(page);
    const drawn = () => page.locator(".picture").innerHTML();
    const title = () => page.locator("#pictures-title").innerText();
    const titles = new Set<string>();
    for (let n = 0; n < 7; n++) {
      titles.add(await title());
      await page.getByRole("button", { name: "Next" }).click();
    }
    expect(titles.size).toBe(7);
    const before = await drawn();
    await page.getByRole("button", { name: "Play" }).click();
    await expect.poll(drawn).not.toBe(before);
    await page.getByRole("button", { name: "Pause" }).click();
    await page.getByRole("button", { name: "Play" }).waitFor();
    const still = await drawn();
    await page.waitForTimeout(200);
    expect(await drawn()).toBe(still);
    await page.getByRole("slider", { name: "Moment of the picture" }).press("ArrowRight");
    await expect.poll(drawn).not.toBe(still);
  });

  test("are presented on the whole screen: next and back by key", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers" });
    await sheetsShown(page);
    await picturesShown(page);
    await page.getByRole("button", { name: "Present" }).click();
    const presenter = page.locator("dialog.presenter");
    await presenter.waitFor();
    const title = () => presenter.locator("svg title").textContent();
    const first = await title();
    await page.keyboard.press("ArrowRight");
    await expect.poll(title).not.toBe(first);
    await page.keyboard.press("ArrowLeft");
    await expect.poll(title).toBe(first);
    const box = await presenter.boundingBox();
    const size = page.viewportSize();
    expect(box?.width).toBeGreaterThanOrEqual((size?.width ?? 0) - 1);
    await presenter.getByRole("button", { name: "End" }).click();
    await expect.poll(() => page.locator("dialog.presenter").count()).toBe(0);
  });

  test("are handed over as SVG and as a series of PNG", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers" });
    await sheetsShown(page);
    await picturesShown(page);
    const svg = await handedOver(page, () => page.getByRole("button", { name: "SVG", exact: true }).click());
    expect(svg.name).toMatch(/-rectifier\.svg$/);
    expect(svg.bytes.toString()).toMatch(/^<svg [\s\S]*@font-face[\s\S]*<\/svg>/);
    const series = await handedOver(page, () => page.getByRole("button", { name: "PNG series" }).click());
    expect(series.bytes.subarray(0, 2).toString()).toBe("PK");
    // published: PNG signature, ISO/IEC 15948, 5.2
    const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    expect(series.bytes.includes(signature)).toBe(true);
    expect(series.bytes.toString("latin1")).toContain("rectifier-060.png");
  });

  test("give up a film half way", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers" });
    await sheetsShown(page);
    await picturesShown(page);
    await page.getByRole("button", { name: "WebM film" }).click();
    await page.getByRole("button", { name: "Give up" }).click();
    await expect
      .poll(() => page.locator(".notice, [role='status']").allInnerTexts())
      .toContainEqual(expect.stringMatching(/Film given up; nothing was written/));
    expect(await page.getByRole("button", { name: "WebM film" }).isEnabled()).toBe(true);
  });
});

describe("for everybody", () => {
  for (const colorScheme of ["light", "dark"] as const) {
    test(`axe finds no violation in ${colorScheme}`, async ({ openLectern: open }) => {
      const { page } = await open({ at: "#papers", colorScheme });
      await sheetsShown(page);
      expect(await scan(page)).toEqual([]);
      await picturesShown(page);
      expect(await scan(page)).toEqual([]);
    });
  }

  test("nothing is wider than a small screen", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#papers", viewport: { width: 360, height: 740 } });
    await sheetsShown(page);
    const width = () => page.evaluate(() => document.documentElement.scrollWidth);
    expect(await width()).toBeLessThanOrEqual(360);
    await picturesShown(page);
    expect(await width()).toBeLessThanOrEqual(360);
  });
});
