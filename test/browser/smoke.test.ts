/** The built app opens, and the harness that says so can also say no. */
import { describe, expect } from "vitest";
import { test } from "./harness.ts";

describe("the built app", () => {
  test("opens under its name, from this machine alone", async ({ app }) => {
    expect(await app.page.title()).toMatch(/Coilwright/);
    await app.page.waitForLoadState("networkidle");
    expect(app.troubles()).toEqual([]);
  });
});

describe("the harness", () => {
  // law: a harness that hears no fault would pass every test
  test("hears an uncaught error, a console error and a request to elsewhere", async ({ app }) => {
    await app.page.evaluate(() => {
      setTimeout(() => {
        throw new Error("planted");
      });
      console.error("spoken");
      return fetch("http://elsewhere.example/").catch(() => undefined);
    });
    await expect.poll(() => app.troubles().join("\n")).toMatch(/planted/);
    const troubles = app.troubles().join("\n");
    expect(troubles).toMatch(/console error: spoken/);
    expect(troubles).toMatch(/elsewhere|Content Security Policy/);
    app.expectTrouble(/planted|spoken|elsewhere|Content Security Policy/);
  });

  test("reaches the file that the page is served for", async ({ open }) => {
    const text = "coilwright: 1\nname: Of the harness\n";
    const app = await open({ text });
    const served = await app.page.evaluate(async () => (await fetch("./api/file")).json());
    expect(served.text).toBe(text);
    expect(await app.textOnDisk()).toBe(text);
  });
});
