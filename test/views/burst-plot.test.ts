import { describe, expect, it } from "vitest";
import { burstPlot, burstPlotBeginning } from "../../src/views/burst-plot.ts";
import { handMadeBurst } from "./hand-made-burst.ts";

const picture = burstPlot({ name: "Hand <made> & small", study: handMadeBurst, overcurrent: 90 });
const numbersIn = (path: string) => (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
const pathOf = (name: string) => new RegExp(`<path class="${name}" d="([^"]*)"`).exec(picture)?.[1] ?? "";
const words = [...picture.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]*)<\/text>/g)].map(([, x, y, text]) => ({
  x: Number(x),
  y: Number(y),
  text: text!,
}));
const said = words.map(({ text }) => text);

describe("the picture of a burst", () => {
  // guard, looked at in both themes: open the file in a browser
  it("is the one that was looked at", () => expect(picture).toMatchFileSnapshot("burst-plot-hand-made.svg"));

  it("begins so that the program knows its own, and refers to nothing outside", () => {
    expect(picture.startsWith(burstPlotBeginning)).toBe(true);
    expect(picture).not.toMatch(/href|url\(|@import|<script|<image/);
    expect(picture).toContain("<title>One burst of Hand &lt;made&gt; &amp; small</title>");
  });

  it("names every track with its unit, and its peak", () => {
    for (const name of ["primary current, A", "bridge voltage, V", "tank voltage, kV", "top-load voltage, kV"]) {
      expect(said).toContain(name);
    }
    expect(said).toContain("60.0 kV");
    expect(said).toContain("upper gates");
    expect(said).toContain("energy that the bus has given, mJ");
    expect(said).toContain("time, µs");
  });

  it("marks breakout and end of the drive, and draws trip and breakout as levels", () => {
    expect(said).toContain("breakout");
    expect(said).toContain("end of on-time");
    expect(said).toContain("trip");
    expect(picture.match(/class="level"/g)).toHaveLength(4);
  });

  // law: both axes are straight: even ticks stand evenly apart, and crests lie from zero in proportion to their current
  it("puts times and heights where they belong", () => {
    const ticks = [0, 20, 40, 60].map((tick) => words.find(({ text, y }) => text === String(tick) && y > 800)?.x ?? 0);
    expect(ticks[1]! - ticks[0]!).toBeCloseTo(ticks[2]! - ticks[1]!, 0);
    expect(ticks[3]! - ticks[2]!).toBeCloseTo(ticks[2]! - ticks[1]!, 0);
    const heights = numbersIn(pathOf("line primaryCurrent")).filter((_, n) => n % 2 === 1);
    const zero = (words.find(({ text, y }) => text === "0" && y < 200)?.y ?? 0) - 4;
    const currents = handMadeBurst.waveforms!.primaryCurrent;
    const [above, below] = [zero - Math.min(...heights), Math.max(...heights) - zero];
    expect(above / below).toBeCloseTo(Math.max(...currents) / -Math.min(...currents), 1);
  });

  // law: the shares at the end are those of the account: 60 % of what was given went to the streamer
  it("shares out the energy at the end", () => {
    expect(said).toContain("streamer 60 %");
    expect(said).toContain("secondary 9 %");
    const legend = words.filter(({ text }) => / \d+ %$/.test(text)).map(({ y }) => y);
    const gaps = legend.slice(1).map((y, n) => legend[n]! - y);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(13);
  });

  // law: ink and sheet part by 4.5 : 1 and more on paper and in the hall, as WCAG counts it
  it("reads on paper and in a dark hall", () => {
    const style = /<style>(.*)<\/style>/.exec(picture)![1]!;
    const [paper = "", hall = ""] = style.split("@media (prefers-color-scheme:dark)");
    for (const theme of [paper, hall]) {
      const colour = (selector: string) => new RegExp(`${selector}\\{(?:fill|stroke):(#[0-9a-f]{6})`).exec(theme)![1]!;
      const sheet = luminance(colour("\\.sheet"));
      for (const selector of ["text", "\\.primaryCurrent", "\\.topVoltage", "\\.tankVoltage", "\\.bridgeVoltage"]) {
        const ink = luminance(colour(selector));
        const ratio = (Math.max(ink, sheet) + 0.05) / (Math.min(ink, sheet) + 0.05);
        expect([selector, ratio > 4.5]).toEqual([selector, true]);
      }
    }
  });

  it("is nothing where no waveforms were sampled", () =>
    expect(burstPlot({ name: "x", study: { ...handMadeBurst, waveforms: undefined } })).toBe(""));
});

/** Relative luminance of a colour. @source WCAG 2, from memory */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.03928 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
