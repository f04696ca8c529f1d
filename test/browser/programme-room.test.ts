/** The room Programme: a song planned, looked at, played, silenced, handed over. */
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { scan } from "./axe-scan.ts";
import { type OpenOptions, test } from "./harness.ts";

/** A loaded machine takes seconds for a plan. */
const eventually = <T>(of: () => Promise<T>) => expect.poll(of, { timeout: 15_000, interval: 40 });

const inRoom: OpenOptions = { example: "belfry.yaml", at: "#programme" };

async function planned(page: Page): Promise<void> {
  await page.locator(".roll:not([data-behind]) canvas").waitFor({ timeout: 20_000 });
}

/** Title of the song that is planned. */
const title = (page: Page) => page.locator("#roll-title").innerText();

async function tuneWritten(page: Page, text: string): Promise<void> {
  await page.getByLabel("Notation", { exact: true }).fill(text);
  await eventually(() => title(page)).toBe(/^tune (.*)$/m.exec(text)?.[1]);
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
    await eventually(() => position(page)).toBeGreaterThan(0.2);
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
    await eventually(async () => {
      const now = await position(page);
      if (now < last) turns++;
      last = now;
      return turns;
    }).toBeGreaterThan(1);
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
    // what is shown is the song before: it is neither played nor written
    await page.locator(".roll[data-behind]").waitFor();
    expect(await page.getByRole("button", { name: "Play preview" }).isDisabled()).toBe(true);
    expect(await page.getByRole("button", { name: "Pulses CSV" }).isDisabled()).toBe(true);
  });

  test("is taken from a MIDI file, and a file that is none is refused", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    const input = page.locator(".file-chooser input");
    await input.setInputFiles(new URL("../../examples/lamplight.mid", import.meta.url).pathname);
    await eventually(() => page.locator(".file-chooser p").innerText()).toBe("lamplight.mid");
    await eventually(() => title(page)).toMatch(/Lamplight/);
    await input.setInputFiles({ name: "noise.mid", mimeType: "audio/midi", buffer: Buffer.from([0, 1, 2, 3, 255]) });
    await page.locator(".song-findings li.stop").waitFor();
  });

  test("is dropped on the page", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["tune Dropped\n1 s: A2"], "dropped.tune"));
      document.querySelector(".roll")?.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true }));
    });
    await eventually(() => title(page)).toBe("Dropped");
  });

  test("of one tone is planned at once", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.getByLabel("Tone from").fill("150 Hz");
    await page.getByLabel("in", { exact: true }).fill("2 s");
    await page.getByRole("button", { name: "Steady tone" }).click();
    await eventually(() => title(page)).toBe("a tone");
    // law: 150 pulses a second for 2 s, both ends included or not
    await eventually(() => page.locator(".roll-bar .small").innerText()).toMatch(/30[01] of 30[01] pulses/);
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
    await eventually(() => page.locator(".mark-teller output").innerText()).toMatch(
      /At \d\.\d{3} s, .*(left out|in place of)/,
    );
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
    await eventually(() => sent.innerText()).toBe("0");
  });
});

describe("the figures of the programme", () => {
  test("answer why", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.getByRole("button", { name: "Why programme, pulses sent?" }).click();
    const drawer = page.locator(".why-drawer");
    await drawer.waitFor();
    const number = await page.locator('[data-figure="programme.pulses"] .number').innerText();
    expect(await drawer.locator(".answer .number").innerText()).toBe(number);
    await eventually(() => drawer.locator(".working").count()).toBe(0);
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

/** A line that keeps what is written to it, with the time of each piece; in the place of the browser's own. */
async function fakeLine(
  page: Page,
): Promise<{ sent(): Promise<{ at: number; bytes: number[] }[]>; rate(): Promise<number> }> {
  await page.evaluate(() => {
    const seen: { at: number; bytes: number[] }[] = [];
    const line = {
      rate: 0,
      writable: new WritableStream<Uint8Array>({
        write: (bytes) => {
          seen.push({ at: performance.now(), bytes: [...bytes] });
        },
      }),
      open({ baudRate }: { baudRate: number }) {
        line.rate = baudRate;
        return Promise.resolve();
      },
      close: () => Promise.resolve(),
    };
    Object.assign(globalThis, { seen, line });
    Object.defineProperty(navigator, "serial", { value: { requestPort: () => Promise.resolve(line) } });
  });
  return {
    sent: () => page.evaluate(() => (globalThis as unknown as { seen: { at: number; bytes: number[] }[] }).seen),
    rate: () => page.evaluate(() => (globalThis as unknown as { line: { rate: number } }).line.rate),
  };
}

const held = (page: Page) => page.locator('.piano [aria-pressed="true"]').count();

describe("keys", () => {
  test("of the computer play only while their switch is on, and not while somebody writes", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.keyboard.down("z");
    expect(await held(page)).toBe(0);
    await page.keyboard.up("z");
    await page.getByRole("checkbox", { name: "Computer keyboard plays" }).check();
    await page.keyboard.down("z");
    await page.keyboard.down("c");
    await eventually(() => page.locator(".key-says").innerText()).toMatch(/^C2 E2\./);
    await page.keyboard.up("z");
    await eventually(() => held(page)).toBe(1);
    await page.keyboard.press("Escape");
    await eventually(() => held(page)).toBe(0);
    await page.keyboard.up("c");
    await page.getByLabel("Notation", { exact: true }).focus();
    await page.keyboard.down("z");
    expect(await held(page)).toBe(0);
  });

  test("of a MIDI keyboard are heard after a press", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await page.evaluate(() => {
      const input = { name: "Shelf keys", state: "connected", onmidimessage: undefined };
      Object.assign(globalThis, { input });
      Object.defineProperty(navigator, "requestMIDIAccess", {
        value: () => Promise.resolve({ inputs: new Map([["1", input]]), onstatechange: null }),
      });
    });
    const say = (bytes: number[]) =>
      page.evaluate((data) => {
        const { input } = globalThis as unknown as { input: { onmidimessage?: (event: { data: Uint8Array }) => void } };
        input.onmidimessage?.({ data: Uint8Array.from(data) });
      }, bytes);
    await say([0x90, 48, 100]);
    expect(await held(page)).toBe(0);
    await page.getByRole("button", { name: "Hear a MIDI keyboard" }).click();
    await page.getByText("Heard: Shelf keys.").waitFor();
    await say([0x90, 40, 100]);
    await eventually(() => page.locator(".key-says").innerText()).toMatch(/^E2/);
    await say([0x80, 40, 0]);
    await eventually(() => held(page)).toBe(0);
  });
});

describe("the line to a controller", () => {
  const off = (page: Page) => page.getByRole("switch", { name: "Operator's switch: off" });

  test("carries heartbeat and keys while the switch is on, and ends with Escape", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    const line = await fakeLine(page);
    await page.getByRole("button", { name: "Open a serial line…" }).click();
    await eventually(() => off(page).isEnabled()).toBe(true);
    expect(await line.rate()).toBe(31_250);
    await page.getByRole("checkbox", { name: "Computer keyboard plays" }).check();
    await page.keyboard.press("z");
    await page.waitForTimeout(250);
    // nothing goes out before the switch is on
    expect(await line.sent()).toEqual([]);
    await off(page).click();
    await eventually(async () => (await line.sent()).filter(({ bytes }) => bytes[0] === 0xfe).length).toBeGreaterThan(
      8,
    );
    const beats = (await line.sent()).filter(({ bytes }) => bytes[0] === 0xfe).map(({ at }) => at);
    const gaps = beats.slice(1).map((at, n) => at - (beats[n] ?? 0));
    // law: 100 ms apart in the mean, and never as far as the controller waits
    expect(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length).toBeLessThan(150);
    expect(Math.max(...gaps)).toBeLessThan(400);
    await page.keyboard.down("z");
    await eventually(async () => (await line.sent()).map(({ bytes }) => bytes)).toContainEqual([0x90, 36, 102]);
    await page.keyboard.press("Escape");
    await off(page).waitFor();
    const last = (await line.sent()).at(-1)?.bytes;
    expect(last).toEqual([0xb0, 120, 0, 0xb0, 123, 0]);
    const count = (await line.sent()).length;
    await page.waitForTimeout(300);
    expect((await line.sent()).length).toBe(count);
  });

  for (const [why, event] of [
    ["loses the focus", "blur"],
    ["is left", "pagehide"],
  ] as const) {
    test(`falls silent when the window ${why}`, async ({ open }) => {
      const { page } = await open(inRoom);
      await planned(page);
      const line = await fakeLine(page);
      await page.getByRole("button", { name: "Open a serial line…" }).click();
      await off(page).click();
      await page.getByRole("switch", { name: "Operator's switch: on" }).waitFor();
      await page.evaluate((name) => dispatchEvent(new Event(name)), event);
      await off(page).waitFor();
      await eventually(async () => (await line.sent()).at(-1)?.bytes).toEqual([0xb0, 120, 0, 0xb0, 123, 0]);
      const count = (await line.sent()).length;
      await page.waitForTimeout(250);
      expect((await line.sent()).length).toBe(count);
    });
  }

  test("carries the song where that is wanted", async ({ open }) => {
    const { page } = await open(inRoom);
    await planned(page);
    await tuneWritten(page, "tune Two\n300 ms: A2 E2");
    const line = await fakeLine(page);
    await page.getByRole("button", { name: "Open a serial line…" }).click();
    await off(page).click();
    await page.getByRole("checkbox", { name: "Send the song that plays too" }).check();
    await page.getByRole("button", { name: "Play preview" }).click();
    const words = async () => (await line.sent()).flatMap(({ bytes }) => bytes).join(" ");
    // law: A2 and E2 are keys 45 and 40; the first is let go before the second is struck
    await eventually(words).toMatch(/144 45 .*128 45 .*144 40 /);
    await page.keyboard.press("Escape");
  });

  test("is not offered where the browser has none", async ({ open }) => {
    const { page } = await open({ ...inRoom, at: "#shape" });
    await page.evaluate(() => {
      for (const name of ["serial", "requestMIDIAccess"]) Reflect.deleteProperty(Navigator.prototype, name);
      location.hash = "#programme";
    });
    await planned(page);
    expect(await page.locator(".live").count()).toBe(0);
    expect(await page.getByRole("button", { name: "Hear a MIDI keyboard" }).count()).toBe(0);
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
    await eventually(seen).not.toBe(whole);
    await page.keyboard.press("0");
    await eventually(seen).toBe(whole);
  });
});
