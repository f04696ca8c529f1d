/** The Shape room as somebody at a bench meets it: pull, type, remedy, undo, save. */
import { writeFile } from "node:fs/promises";
import { describe, expect } from "vitest";
import { lecternText } from "../views/coil-of-example.ts";
import { test } from "./app-coil.ts";
import { can, dimension, dimensionText, figureText, pull, redo, save, solved, typeOver, undo } from "./app-gestures.ts";

describe("the drawing", () => {
  test("is there within a second and a half, before any figure", async ({ openLectern: open }) => {
    const app = await open();
    const painted = await app.page.evaluate(async () => {
      while (document.querySelector(".sheet .dimension") === null) await new Promise(requestAnimationFrame);
      return performance.now();
    });
    expect(painted).toBeLessThan(1500);
  });

  test("shows a dimension as the file writes it", async ({ app: { page } }) => {
    expect(await dimensionText(page, "secondary.former.outerDiameter")).toContain("110 mm");
    await expect
      .poll(() => dimension(page, "secondary.former.outerDiameter").getAttribute("aria-valuetext"))
      .toMatch(/measured/);
  });

  test("moves the top load with the mouse: figures follow, one step is made, undo and redo walk it", async ({
    app,
  }) => {
    const { page } = app;
    await solved(page);
    const before = await figureText(page, "secondary.f1");
    await pull(page, "topload.0.toroid.height", { x: 0, y: -60 });
    await solved(page);
    await expect.poll(() => figureText(page, "secondary.f1")).not.toBe(before);
    const moved = await dimensionText(page, "topload.0.toroid.height");
    expect(moved).not.toContain("640 mm");
    expect(Number.parseFloat(moved.replace(/^\D+/, ""))).toBeGreaterThan(640);

    await undo(page).click();
    await solved(page);
    expect(await dimensionText(page, "topload.0.toroid.height")).toContain("640 mm");
    await expect.poll(() => figureText(page, "secondary.f1")).toBe(before);
    expect(await can(undo(page))).toBe(false);
    await redo(page).click();
    expect(await dimensionText(page, "topload.0.toroid.height")).toBe(moved);
  });

  test("takes a typed value with tolerance, origin and another unit", async ({ app }) => {
    const { page } = app;
    await typeOver(page, "secondary.length", "16 in ± 1 mm (measured)");
    await expect.poll(() => dimensionText(page, "secondary.length")).toContain("16 in");
    await page.keyboard.press("Control+s");
    await expect.poll(app.textOnDisk).toContain("length: 16 in ± 1 mm (measured)");
  });

  test("says in words what is wrong with a typed value, and keeps the old one", async ({ app: { page } }) => {
    await typeOver(page, "secondary.length", "40 kg");
    const help = page.locator("#value-field-help");
    await expect.poll(() => help.textContent()).toMatch(/kg/);
    expect(await page.locator("#value-field").getAttribute("aria-invalid")).toBe("true");
    await page.keyboard.press("Escape");
    expect(await dimensionText(page, "secondary.length")).toContain("402 mm");
    expect(await can(undo(page))).toBe(false);
  });

  test("keeps every comment and every other line of the file", async ({ app }) => {
    const { page } = app;
    await typeOver(page, "secondary.turns", "1160");
    await page.keyboard.press("Control+s");
    const original = lecternText;
    await expect.poll(app.textOnDisk).toBe(original.replace("turns: 1150", "turns: 1160"));
  });

  test("zooms by wheel about the pointer, and fits again", async ({ app: { page } }) => {
    const width = () => page.locator("[data-shape='winding']").evaluate((one) => one.getBoundingClientRect().height);
    const before = await width();
    const box = await page.locator("[data-shape='winding']").boundingBox();
    await page.mouse.move((box?.x ?? 0) + 20, (box?.y ?? 0) + 60);
    await page.mouse.wheel(0, -400);
    await expect.poll(width).toBeGreaterThan(before * 1.5);
    await page.getByRole("button", { name: "Coil", exact: true }).click();
    await expect.poll(width).toBeCloseTo(before, 0);
  });

  test("paints potential, field, winding voltage and peaks when asked", async ({ app: { page } }) => {
    await solved(page);
    for (const name of ["Potential", "Field", "Winding", "Peaks"])
      await page.getByRole("button", { name, exact: true }).click();
    await expect.poll(() => page.locator(".potential path").count()).toBeGreaterThan(5);
    await expect.poll(() => page.locator(".field .band").count()).toBeGreaterThan(3);
    expect(await page.locator(".winding-profile .curve").count()).toBe(1);
    expect(await page.locator(".peaks .mark").count()).toBeGreaterThan(0);
    await page.getByLabel("Voltage of the top load").fill("150 kV");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator(".winding-profile text").textContent()).toContain("150 kV");
  });
});

describe("findings", () => {
  const crowded = lecternText.replace("turns: 1150", "turns: 1400");

  test("offer a remedy that is one step to apply and one to take back", async ({ openLectern: open }) => {
    const { page } = await open({ text: crowded });
    await page.locator("button.strip").click();
    const finding = page.locator(".finding", { has: page.locator(".remedies button") }).first();
    const rule = await finding.getAttribute("data-rule");
    await finding.locator(".remedies button").first().click();
    await expect.poll(() => page.locator(`.finding[data-rule="${rule}"]`).count()).toBe(0);
    expect(await can(undo(page))).toBe(true);
    await undo(page).click();
    await expect.poll(() => page.locator(`.finding[data-rule="${rule}"]`).count()).toBeGreaterThan(0);
    expect(await can(undo(page))).toBe(false);
  });

  test("jump to their place", async ({ openLectern: open }) => {
    const { page } = await open({ text: crowded });
    await page.locator("button.strip").click();
    await page.locator(".finding .where button").first().click();
    await expect
      .poll(() =>
        page.evaluate(() => document.activeElement?.getAttribute("data-path") ?? document.activeElement?.tagName),
      )
      .toMatch(/^secondary|TEXTAREA/);
  });

  test("are said at the lines of a text that cannot be read, and the last drawing stays", async ({ app }) => {
    const { page } = app;
    await page.keyboard.press("Control+e");
    const area = page.locator("textarea");
    await area.fill((await area.inputValue()).replace("turns: 1150", "turns: many"));
    await expect.poll(() => page.locator(".text-problems li").first().textContent()).toMatch(/line \d+/);
    expect(await page.locator(".stale-note").count()).toBe(1);
    expect(await page.locator("[data-shape='winding']").count()).toBe(1);
    await area.fill((await area.inputValue()).replace("turns: many", "turns: 1100"));
    await expect.poll(() => page.locator(".stale-note").count()).toBe(0);
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1100");
  });
});

describe("the file", () => {
  test("is saved, and is the same after the page is loaded again", async ({ app }) => {
    const { page } = app;
    await solved(page);
    await pull(page, "topload.0.toroid.outerDiameter", { x: 30, y: 0 });
    const wide = await dimensionText(page, "topload.0.toroid.outerDiameter");
    await save(page).click();
    await expect.poll(() => page.locator(".file-state").innerText()).toMatch(/^coil\.yaml\s+saved$/);
    await page.reload();
    await expect.poll(() => dimensionText(page, "topload.0.toroid.outerDiameter")).toBe(wide);
  });

  test("that changed on disk is never overwritten silently", async ({ app }) => {
    const { page } = app;
    app.expectTrouble(/409/);
    await typeOver(page, "secondary.turns", "1160");
    const theirs = (await app.textOnDisk()).replace("turns: 1150", "turns: 1234");
    await writeFile(app.file, theirs);
    await page.locator("dialog[open]").waitFor();
    expect(await app.textOnDisk()).toBe(theirs);
    await page.getByRole("button", { name: "Show both" }).click();
    await expect.poll(() => page.locator(".differs").allInnerTexts()).not.toEqual([]);
    await page.getByRole("button", { name: "Decide later" }).click();
    await page.keyboard.press("Control+s");
    await page.locator("dialog[open]").waitFor();
    expect(await app.textOnDisk()).toBe(theirs);
    await page.getByRole("button", { name: "Take theirs" }).click();
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1234");
    await undo(page).click();
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1160");
  });

  test("that changed on disk is taken over where nothing was changed here", async ({ app }) => {
    const { page } = app;
    await dimension(page, "secondary.turns").waitFor();
    await writeFile(app.file, (await app.textOnDisk()).replace("turns: 1150", "turns: 1111"));
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1111");
  });

  test("that is no coil yet can be mended in the text", async ({ openLectern: open }) => {
    const app = await open({ text: "coilwright: 1\nname: Bare\n" });
    await app.page.getByRole("button", { name: "Open the text" }).click();
    await expect.poll(() => app.page.locator("textarea").inputValue()).toContain("name: Bare");
    await app.page.locator("textarea").fill(lecternText);
    await dimension(app.page, "secondary.turns").waitFor();
  });
});

describe("what was not saved", () => {
  test("is back as one step after the page was left", async ({ app }) => {
    const { page } = app;
    await typeOver(page, "secondary.turns", "1163");
    await expect.poll(() => page.locator(".file-state").innerText()).toMatch(/not saved/);
    page.on("dialog", (dialog) => void dialog.accept());
    await page.waitForTimeout(200);
    await page.reload();
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1163");
    await undo(page).click();
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1150");
  });

  test("is not left behind without a question", async ({ app }) => {
    const { page } = app;
    await typeOver(page, "secondary.turns", "1163");
    const asked: string[] = [];
    page.on("dialog", (dialog) => {
      asked.push(dialog.message());
      void dialog.dismiss();
    });
    await page.getByRole("button", { name: "File", exact: true }).click();
    await page.getByRole("button", { name: "Belfry" }).click();
    await expect.poll(() => asked.length).toBe(1);
    expect(await dimensionText(page, "secondary.turns")).toContain("1163");
  });

  test("a pull that Escape ends leaves nothing behind", async ({ app }) => {
    const { page } = app;
    await solved(page);
    const box = await page.locator('[data-grip="topload.0.toroid.height"] .knob').boundingBox();
    await page.mouse.move((box?.x ?? 0) + 5, (box?.y ?? 0) + 5);
    await page.mouse.down();
    await page.mouse.move((box?.x ?? 0) + 5, (box?.y ?? 0) - 40, { steps: 4 });
    await expect.poll(() => dimensionText(page, "topload.0.toroid.height")).not.toContain("640");
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await expect.poll(() => dimensionText(page, "topload.0.toroid.height")).toContain("640 mm");
    expect(await can(undo(page))).toBe(false);
  });
});

test("all keys are told in one place", async ({ app: { page } }) => {
  await page.keyboard.press("F1");
  await expect.poll(() => page.locator("dialog[open]").innerText()).toMatch(/Ctrl\+Shift\+Z[\s\S]*Redo/);
  await page.keyboard.press("Escape");
  await expect.poll(() => page.locator("dialog[open]").count()).toBe(0);
});
