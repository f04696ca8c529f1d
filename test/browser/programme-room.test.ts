/** The room Programme: a song planned, looked at, played, silenced, handed over. */
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { scan } from "./axe-scan.ts";
import { type OpenOptions, test } from "./harness.ts";

const inRoom: OpenOptions = { example: "belfry.yaml", at: "#programme" };

async function planned(page: Page): Promise<void> {
  await page.locator(".roll:not([data-behind]) canvas").waitFor({ timeout: 20_000 });
}

/** Title of the song that is planned. */
const title = (page: Page) => page.locator("#roll-title").innerText();

async function tuneWritten(page: Page, text: string): Promise<void> {
  await page.getByLabel("Notation", { exact: true }).fill(text);
  await expect.poll(() => title(page)).toBe(/^tune (.*)$/m.exec(text)?.[1]);
  await planned(page);
}

/** What a press hands over. */
async function handedOver(page: Page, name: string): Promise<{ name: string; bytes: Buffer }> {
  const waiting = page.waitForEvent("download", { timeout: 30_000 });
  await page.getByRole("button", { name, exact: true }).click();
  const download = await waiting;
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

const position = (page: Page) => page.getByRole("slider", { name: "Position" }).inputValue().then(Number);

describe("a song", () => {
  test("is planned, played and silenced by Escape", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    // the volume starts low
    expect(await page.getByRole("slider", { name: "Volume" }).inputValue()).toBe("0.1");
    await page.getByRole("button", { name: "Play preview" }).click();
    await expect.poll(() => position(page), { timeout: 10_000 }).toBeGreaterThan(0.2);
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Play preview" }).waitFor();
    const still = await position(page);
    await page.waitForTimeout(300);
    expect(await position(page)).toBe(still);
  });

  test("loops, and the button silences as the key does", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await tuneWritten(page, "tune Short\n300 ms: A2 A2");
    await page.getByRole("button", { name: "Loop" }).click();
    await page.getByRole("button", { name: "Play preview" }).click();
    let last = 0;
    let turns = 0;
    await expect
      .poll(
        async () => {
          const now = await position(page);
          if (now < last) turns++;
          last = now;
          return turns;
        },
        { timeout: 10_000, interval: 40 },
      )
      .toBeGreaterThan(1);
    await page.getByRole("button", { name: /^Silence/ }).click();
    await page.getByRole("button", { name: "Play preview" }).waitFor();
  });

  test("with a mistake in its text says where, and brings the caret there", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    const box = page.getByLabel("Notation", { exact: true });
    await box.fill("tune Wrong\n1: A4 H9\n");
    await page.getByRole("button", { name: /^line 2, column 7/ }).click();
    expect(await box.evaluate((element: HTMLTextAreaElement) => element.selectionStart)).toBe(17);
    expect(await box.getAttribute("aria-invalid")).toBe("true");
  });

  test("is taken from a MIDI file, and a file that is none is refused", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    const input = page.locator(".file-chooser input");
    await input.setInputFiles(new URL("../../examples/lamplight.mid", import.meta.url).pathname);
    await expect.poll(() => page.locator(".file-chooser p").innerText()).toBe("lamplight.mid");
    await expect.poll(() => title(page)).toMatch(/Lamplight/);
    await input.setInputFiles({ name: "noise.mid", mimeType: "audio/midi", buffer: Buffer.from([0, 1, 2, 3, 255]) });
    await page.locator(".song-findings li.stop").waitFor();
  });

  test("of one tone is planned at once", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.getByLabel("Tone from").fill("150 Hz");
    await page.getByLabel("in", { exact: true }).fill("2 s");
    await page.getByRole("button", { name: "Steady tone" }).click();
    await expect.poll(() => title(page)).toBe("a tone");
    // law: 150 pulses a second for 2 s, both ends included or not
    await expect.poll(() => page.locator(".roll-bar .small").innerText()).toMatch(/30[01] of 30[01] pulses/);
    await page.getByLabel("in", { exact: true }).fill("2 kg");
    await page.getByRole("button", { name: "Sweep" }).click();
    await page.getByRole("alert").waitFor();
  });
});

describe("what was left out", () => {
  test("is counted by reason, and told pulse by pulse", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await tuneWritten(page, "tune Dense\n2 s: A4&C5&E5&A5");
    const line = page.locator(".reasons li").first();
    expect(await line.innerText()).toMatch(/\d+ (shortened|left out)/);
    await page.getByRole("button", { name: "Next mark" }).click();
    await expect
      .poll(() => page.locator(".mark-teller output").innerText())
      .toMatch(/At \d\.\d{3} s, .*(left out|in place of)/);
  });

  test("is less when it is made to fit, and a muted voice sends nothing", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.getByRole("checkbox", { name: /^Octaves, thinner chords/ }).check();
    await page.locator(".before-after tbody tr").first().waitFor();
    const cells = await page.locator(".before-after tr", { hasText: "left out" }).first().locator("td").allInnerTexts();
    const [before, after] = cells.map((cell) => Number(cell.replace(/\s/g, "")));
    expect(after).toBeLessThan(before ?? 0);
    await page.getByRole("checkbox", { name: "Melody sounds" }).uncheck();
    const sent = page.locator(".voices tr", { hasText: "Melody" }).locator("td").first();
    await expect.poll(() => sent.innerText(), { timeout: 15_000 }).toBe("0");
  });
});

describe("the programme as files", () => {
  test("sound, tables, MIDI and firmware are what they say", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await tuneWritten(page, "tune Short one\n250 ms: A2 E2");
    const wav = await handedOver(page, "Preview WAV");
    expect(wav.name).toBe("short-one-preview.wav");
    expect(wav.bytes.subarray(0, 4).toString()).toBe("RIFF");
    const gate = await handedOver(page, "Gate pulses WAV");
    expect(gate.bytes.subarray(8, 12).toString()).toBe("WAVE");
    expect(gate.bytes.readUInt32LE(24)).toBe(192_000);
    expect(await page.locator(".outputs .said").innerText()).toMatch(/starts within .*µs/);
    const csv = await handedOver(page, "Pulses CSV");
    // law: 110 Hz and 82.41 Hz for a quarter of a second each: 27 or 28 and 20 or 21 pulses
    const rows = csv.bytes.toString().trim().split("\n").length - 1;
    expect(rows).toBeGreaterThanOrEqual(47);
    expect(rows).toBeLessThanOrEqual(49);
    const json = JSON.parse((await handedOver(page, "JSON")).bytes.toString());
    expect(json.schedule.start).toHaveLength(rows);
    expect((await handedOver(page, "Clean MIDI")).bytes.subarray(0, 4).toString()).toBe("MThd");
    const firmware = await handedOver(page, "Firmware, this song");
    expect(firmware.bytes.subarray(0, 2).toString()).toBe("PK");
    for (const name of ["README.txt", "limits.h", "main.c", "schedule.h"])
      expect(firmware.bytes.toString("latin1")).toContain(name);
    expect((await handedOver(page, "Firmware, live")).bytes.toString("latin1")).toContain("notes.h");
  });
});

describe("for everybody", () => {
  for (const colorScheme of ["light", "dark"] as const) {
    test(`axe finds no violation in ${colorScheme}`, async ({ open }) => {
      const { page } = await open({ ...inRoom, colorScheme });
      await planned(page);
      expect(await scan(page)).toEqual([]);
    });
  }

  test("nothing is wider than a small screen", async ({ open }) => {
    const { page } = await open({ ...inRoom, viewport: { width: 360, height: 740 } });
    await planned(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });

  test("the picture is moved and zoomed by keys", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    const canvas = page.locator(".roll canvas");
    const seen = () => canvas.evaluate((element: HTMLCanvasElement) => element.toDataURL());
    const whole = await seen();
    await page.locator(".roll-field").focus();
    await page.keyboard.press("+");
    await expect.poll(seen).not.toBe(whole);
    await page.keyboard.press("0");
    await expect.poll(seen).toBe(whole);
  });
});
