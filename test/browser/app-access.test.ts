/** For everybody: by keyboard alone, on a small screen, by ear, in both lights, without motion. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { test } from "./app-coil.ts";
import { can, dimension, dimensionText, solved, undo } from "./app-gestures.ts";

interface Scan {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}

const axePath = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** published: the rules of axe-core for WCAG 2.2 AA and its best practices. */
async function scan(page: Page): Promise<string[]> {
  await page.evaluate(await readFile(axePath, "utf8"));
  const found = (await page.evaluate("axe.run({ resultTypes: ['violations'] })")) as Scan;
  return found.violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${help}: ${html.slice(0, 160)} ${failureSummary ?? ""}`),
  );
}

const rooms = ["#shape", "#resonance"] as const;

describe("axe finds no violation", () => {
  for (const at of rooms) {
    for (const colorScheme of ["light", "dark"] as const) {
      test(`in ${at} in ${colorScheme}`, async ({ openLectern: open }) => {
        const { page } = await open({ at, colorScheme });
        await solved(page);
        expect(await scan(page)).toEqual([]);
      });
    }
  }

  test("with everything unfolded", async ({ openLectern: open }) => {
    const { page } = await open();
    await solved(page);
    for (const name of ["Potential", "Field", "Winding", "Peaks"]) {
      await page.getByRole("button", { name, exact: true }).click();
    }
    await page.locator(".field .band").first().waitFor();
    await page.locator("button.strip").click();
    await page.keyboard.press("Control+e");
    await page.locator("[data-figure='secondary.f1'] .why").click();
    await page.locator(".why-drawer").waitFor();
    await dimension(page, "secondary.former.outerDiameter").focus();
    await page.keyboard.press("Enter");
    await page.locator("#value-field").fill("wide");
    await page.keyboard.press("Enter");
    await page.locator("[role='alert']").waitFor();
    expect(await scan(page)).toEqual([]);
  });

  test("with the file menu open, on a small screen", async ({ openLectern: open }) => {
    const { page } = await open({ viewport: { width: 360, height: 740 } });
    await solved(page);
    await page.getByRole("button", { name: "File", exact: true }).click();
    expect(await scan(page)).toEqual([]);
  });
});

describe("with the keyboard alone", () => {
  /** Presses Tab until the focus is where it should be. */
  async function tabTo(page: Page, selector: string): Promise<void> {
    for (let presses = 0; presses < 120; presses++) {
      await page.keyboard.press("Tab");
      if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
    }
    throw new Error(`Tab never reached ${selector}`);
  }

  test("a dimension is reached, nudged, typed over, undone and saved", async ({ app }) => {
    const { page } = app;
    await solved(page);
    await tabTo(page, "[data-path='topload.0.toroid.height']");
    for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowUp");
    const nudged = await dimensionText(page, "topload.0.toroid.height");
    expect(Number.parseFloat(nudged)).toBeGreaterThan(640);
    await page.keyboard.press("Shift+ArrowUp");
    const fine = await dimensionText(page, "topload.0.toroid.height");
    expect(Number.parseFloat(fine) - Number.parseFloat(nudged)).toBeLessThan(1);

    await page.keyboard.press("Control+z");
    // a held key is one step
    expect(await dimensionText(page, "topload.0.toroid.height")).toContain("640 mm");
    expect(await can(undo(page))).toBe(false);

    await page.keyboard.press("Enter");
    await page.keyboard.type("660 mm ± 1 mm (measured)");
    await page.keyboard.press("Enter");
    await expect.poll(() => dimensionText(page, "topload.0.toroid.height")).toContain("660 mm");
    // the focus is back on what was edited
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute("data-path")))
      .toBe("topload.0.toroid.height");
    await page.keyboard.press("Control+s");
    await expect.poll(app.textOnDisk).toContain("height: 660 mm ± 1 mm (measured)");
  });

  test("the drawing is zoomed, panned and fitted", async ({ app: { page } }) => {
    const former = () => page.locator("[data-shape='former']").evaluate((one) => one.getBoundingClientRect().toJSON());
    await solved(page);
    await tabTo(page, ".sheet > svg");
    const before = await former();
    await page.keyboard.press("+");
    await expect.poll(async () => (await former()).height).toBeGreaterThan(before.height * 1.2);
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("c");
    await expect.poll(async () => (await former()).height).toBeCloseTo(before.height, 0);
    await page.keyboard.press("r");
    await expect.poll(async () => (await former()).height).toBeLessThan(before.height * 0.6);
  });

  test("the why of a figure opens, takes the focus, and gives it back", async ({ app: { page } }) => {
    await solved(page);
    await tabTo(page, "[data-figure='secondary.f1'] .why");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("why-title");
    await expect.poll(() => page.locator(".why-drawer").innerText()).toMatch(/How[\s\S]*From[\s\S]*Source/);
    await page.keyboard.press("Escape");
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.closest("[data-figure]")?.getAttribute("data-figure")))
      .toBe("secondary.f1");
  });

  test("the focus is always seen", async ({ app: { page } }) => {
    await solved(page);
    for (let presses = 0; presses < 24; presses++) {
      await page.keyboard.press("Tab");
      const seen = await page.evaluate(() => {
        const at = document.activeElement;
        if (at === null || at === document.body) return "nowhere";
        const style = getComputedStyle(at);
        const press = at.querySelector(".press");
        const outlined = style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 2;
        return outlined || (press !== null && getComputedStyle(press).stroke !== "none")
          ? ""
          : at.outerHTML.slice(0, 120);
      });
      expect(seen).toBe("");
    }
  });
});

describe("on a screen of 360 pixels", () => {
  for (const at of rooms) {
    test(`${at} does not scroll sideways, and what is pressed is large enough`, async ({ openLectern: open }) => {
      const { page } = await open({ at, viewport: { width: 360, height: 740 } });
      await solved(page);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
      // published: WCAG 2.2, success criterion 2.5.8, target size of 24 by 24 CSS pixels
      const small = await page.evaluate(() =>
        [...document.querySelectorAll("button, input, a[href], [role=spinbutton]")].flatMap((one) => {
          const { width, height } = one.getBoundingClientRect();
          const hidden = width === 0 || one.classList.contains("skip");
          return hidden || (width > 23.9 && height > 23.9)
            ? []
            : [`${one.outerHTML.slice(0, 90)} ${width} × ${height}`];
        }),
      );
      expect(small).toEqual([]);
    });
  }

  test("the notes of the drawing can be typed over below it", async ({ openLectern: open }) => {
    const { page } = await open({ viewport: { width: 360, height: 740 } });
    await solved(page);
    await dimension(page, "secondary.turns").click();
    await page.locator("#value-field").fill("1120");
    await page.keyboard.press("Enter");
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1120");
  });
});

describe("by ear", () => {
  test("a committed change is said once, with what it did", async ({ app: { page } }) => {
    await solved(page);
    await dimension(page, "topload.0.toroid.height").focus();
    await page.keyboard.press("ArrowUp");
    await expect.poll(() => page.locator(".only-heard[role='status']").textContent()).toMatch(/Solved: .*kHz.*finding/);
  });

  test("the drawing says what it shows", async ({ app: { page } }) => {
    await expect
      .poll(() => page.locator("#drawing-summary").textContent())
      .toMatch(/toroid.*secondary winding.*dimensions/);
  });
});

test("nothing moves for those who asked for that", async ({ openLectern: open }) => {
  const { page } = await open({ reducedMotion: "reduce" });
  await solved(page);
  const moving = await page.evaluate(
    () =>
      [...document.querySelectorAll("*")].filter((one) => {
        const { transitionDuration, animationDuration } = getComputedStyle(one);
        return [transitionDuration, animationDuration].some((times) =>
          times.split(",").some((time) => Number.parseFloat(time) > 0),
        );
      }).length,
  );
  expect(moving).toBe(0);
});
