/** The Resonance room: poles against tap and bank, modes, what moves the tune. */
import { describe, expect } from "vitest";
import { test } from "./app-coil.ts";
import { can, figureText, solved, undo } from "./app-gestures.ts";

describe("the pole plots", () => {
  test("are read by keys, linked, and take the aim as one step", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#resonance" });
    await solved(page);
    const tap = page.getByRole("slider", { name: /against the tap/ });
    const before = await tap.getAttribute("aria-valuetext");
    await tap.focus();
    await page.keyboard.press("ArrowLeft");
    await expect.poll(() => tap.getAttribute("aria-valuetext")).not.toBe(before);
    expect(await tap.getAttribute("aria-valuetext")).toMatch(/lower .* upper .* ratio/);
    // the other plot shows the same poles as level lines
    await expect.poll(() => page.locator(".linked path").count()).toBeGreaterThan(0);

    const ratio = await figureText(page, "tuning.ratio");
    const aim = await figureText(page, "tuning.aimRatio");
    await page
      .getByRole("button", { name: /Take the aim/ })
      .first()
      .click();
    await solved(page);
    await expect.poll(() => figureText(page, "tuning.ratio")).not.toBe(ratio);
    // law: at the tap that the aim asks for, the ratio is what the aim asks for
    expect(Number(await figureText(page, "tuning.ratio"))).toBeCloseTo(Number(aim), 2);
    await undo(page).click();
    await expect.poll(() => figureText(page, "tuning.ratio")).toBe(ratio);
    expect(await can(undo(page))).toBe(false);
  });

  test("are read by pointer", async ({ openLectern: open }) => {
    const { page } = await open({ at: "#resonance" });
    await solved(page);
    const bank = page.getByRole("slider", { name: /against the tank capacitor/ });
    const before = await bank.getAttribute("aria-valuetext");
    await bank.hover({ position: { x: 100, y: 100 } });
    await expect.poll(() => bank.getAttribute("aria-valuetext")).not.toBe(before);
    expect(await page.locator(".crosshair").count()).toBe(1);
  });
});

test("three modes and the surroundings are shown", async ({ openLectern: open }) => {
  const { page } = await open({ at: "#resonance" });
  await solved(page);
  expect(await page.locator(".mode-shape").count()).toBe(3);
  expect(await page.locator(".detunings .bars li").count()).toBeGreaterThan(2);
});

test("the room is kept in the address and reached by its name", async ({ app: { page } }) => {
  await page.getByRole("link", { name: /Resonance/ }).click();
  await expect.poll(() => page.url()).toMatch(/#resonance$/);
  await page.locator(".pole-plot").first().waitFor();
  await page.goBack();
  await page.locator(".shape-room").waitFor();
});
