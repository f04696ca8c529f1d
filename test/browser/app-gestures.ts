/** What the app's browser tests do over and over, in the words of somebody at the page. */
import type { Page } from "playwright-core";
import { expect } from "vitest";

/** Waits until the first figures are there. */
export async function solved(page: Page): Promise<void> {
  await page.locator("[data-figure='secondary.f1'] .number").waitFor();
  await expect.poll(() => page.locator(".ledger[data-behind]").count()).toBe(0);
}

/** The words of a dimension on the drawing or in the notes below it. */
export const dimension = (page: Page, path: string) => page.locator(`[data-path="${path}"]`);

export const dimensionText = (page: Page, path: string) =>
  dimension(page, path).evaluate((one) => (one.querySelector("text") ?? one).textContent ?? "");

/** Number and unit of a figure in the ledger. */
export const figureText = async (page: Page, id: string) =>
  (await page.locator(`[data-figure="${id}"] .value`).innerText()).replace(/\s+/g, " ").trim();

/** Pulls a grip with the mouse, in steps, as a hand does. */
export async function pull(page: Page, path: string, by: { readonly x: number; readonly y: number }): Promise<void> {
  const box = await page.locator(`[data-grip="${path}"] .knob`).boundingBox();
  if (box === null) throw new Error(`no grip for ${path}`);
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 6; step++) await page.mouse.move(x + (by.x * step) / 6, y + (by.y * step) / 6);
  await page.mouse.up();
}

/** Types over a dimension. */
export async function typeOver(page: Page, path: string, text: string): Promise<void> {
  await dimension(page, path).click();
  await page.locator("#value-field").fill(text);
  await page.keyboard.press("Enter");
}

export const undo = (page: Page) => page.locator("[data-gesture='undo']");
export const redo = (page: Page) => page.locator("[data-gesture='redo']");
export const save = (page: Page) => page.locator(".tools > [data-gesture='save']");

/** Whether a gesture can be made now. */
export const can = async (button: ReturnType<typeof undo>) => (await button.getAttribute("aria-disabled")) !== "true";
