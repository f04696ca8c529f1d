/** Paints the picture of a programme: notes, the pulses under them, duty and junction beneath, limits as bands. */
import { formatQuantity } from "../../units/index.ts";
import { fates, type ShownProgramme } from "./programme-answer.ts";
import { markPaths } from "./reason-marks.tsx";
import { firstFrom, layRoll, type RollLayout, timeScale, valueScale } from "./roll-layout.ts";

const kelvinZero = 273.15;
const noteNames = ["C", "C♯", "D", "E♭", "E", "F", "F♯", "G", "G♯", "A", "B♭", "B"];

/** A key by name, 60 is C4. */
export const keyName = (key: number): string => `${noteNames[((key % 12) + 12) % 12]}${Math.floor(key / 12) - 1}`;

export interface Tones {
  readonly sheet: string;
  readonly ink: string;
  readonly soft: string;
  readonly hair: string;
  readonly rule: string;
  readonly stop: string;
  readonly fix: string;
  readonly voices: readonly string[];
  readonly figures: string;
  readonly words: string;
}

const voiceTones = ["--dimension", "--copper", "--potential", "--field-tone", "--current-tone", "--winding-tone"];

/** The inks of the theme that is on. */
export function readTones(element: Element): Tones {
  const style = getComputedStyle(element);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return {
    sheet: of("--sheet"),
    ink: of("--ink"),
    soft: of("--ink-soft"),
    hair: of("--hair"),
    rule: of("--rule"),
    stop: of("--stop"),
    fix: of("--fix"),
    voices: voiceTones.map(of),
    figures: of("--figures"),
    words: of("--words"),
  };
}

interface Painting {
  readonly context: CanvasRenderingContext2D;
  readonly programme: ShownProgramme;
  readonly tones: Tones;
  readonly layout: RollLayout;
  readonly sight: { readonly from: number; readonly to: number };
  readonly muted: readonly number[];
}

/** Paints all of it; the context is scaled to CSS pixels already. */
export function drawRoll(painting: Omit<Painting, "layout"> & { readonly width: number }): RollLayout {
  const layout = layRoll(painting.width);
  const { context, tones } = painting;
  context.clearRect(0, 0, layout.width, layout.height);
  context.textBaseline = "middle";
  const whole = { ...painting, layout };
  drawTime(whole);
  drawNotes(whole);
  drawPulses(whole);
  drawMarks(whole);
  drawDuty(whole);
  drawJunction(whole);
  context.fillStyle = tones.ink;
  return layout;
}

function text(
  { context, tones }: Painting,
  words: string,
  {
    x,
    y,
    align = "left",
    tone = tones.soft,
    bold = false,
  }: { x: number; y: number; align?: CanvasTextAlign; tone?: string; bold?: boolean },
): void {
  context.font = `${bold ? 700 : 400} 11px ${tones.words}`;
  context.textAlign = align;
  context.fillStyle = tone;
  context.fillText(words, x, y);
}

/** Words at the head of a strip. */
const heading = (painting: Painting, words: string, top: number): void =>
  text(painting, words, { x: painting.layout.left, y: top - 8, tone: painting.tones.ink, bold: true });

/** What a limit keeps out: hatched, with a line at its edge. */
function band(
  { context, tones, layout: { left, right } }: Painting,
  { top, bottom, edge }: { top: number; bottom: number; edge: "top" | "bottom" },
): void {
  if (bottom - top < 0.5) return;
  context.save();
  context.beginPath();
  context.rect(left, top, right - left, bottom - top);
  context.clip();
  context.strokeStyle = tones.stop;
  context.globalAlpha = 0.28;
  context.lineWidth = 1;
  context.beginPath();
  for (let x = left - (bottom - top); x < right; x += 7) {
    context.moveTo(x, bottom);
    context.lineTo(x + bottom - top, top);
  }
  context.stroke();
  context.restore();
  context.strokeStyle = tones.stop;
  context.lineWidth = 1.4;
  context.setLineDash([6, 3]);
  line(context, [
    [left, edge === "top" ? top : bottom],
    [right, edge === "top" ? top : bottom],
  ]);
  context.setLineDash([]);
}

function line(context: CanvasRenderingContext2D, points: readonly (readonly [number, number])[]): void {
  context.beginPath();
  points.forEach(([x, y], n) => {
    if (n === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  });
  context.stroke();
}

const steps = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600,
];

function drawTime(painting: Painting): void {
  const { context, tones, layout, sight } = painting;
  const { perSecond, toPage } = timeScale(layout, sight);
  const step = steps.find((one) => one * perSecond >= 76) ?? 7200;
  const digits = Math.max(0, -Math.floor(Math.log10(step)));
  context.strokeStyle = tones.hair;
  context.lineWidth = 1;
  for (let n = Math.ceil(sight.from / step); n * step <= sight.to; n++) {
    const x = toPage(n * step);
    line(context, [
      [x, layout.notes.top],
      [x, layout.axis.top],
    ]);
    context.font = `11px ${tones.figures}`;
    context.fillStyle = tones.soft;
    context.textAlign = x > layout.right - 24 ? "right" : "center";
    context.fillText((n * step).toFixed(digits), x, layout.axis.top + 12);
  }
  text(painting, "s", { x: layout.left - 22, y: layout.axis.top + 12, align: "right" });
}

function drawNotes(painting: Painting): void {
  const { context, programme, tones, layout, sight, muted } = painting;
  const { notes: strip, left, right } = layout;
  const { start, end, pitch, voice, noise, velocity, lowered } = programme.notes;
  const { toPage } = timeScale(layout, sight);
  let [low, high] = [127, 0];
  let hasNoise = false;
  for (let n = 0; n < pitch.length; n++) {
    if (noise[n] === 1) hasNoise = true;
    else [low, high] = [Math.min(low, pitch[n] ?? 0), Math.max(high, pitch[n] ?? 0)];
  }
  if (low > high) [low, high] = [57, 69];
  [low, high] = [Math.floor(low) - 2, Math.ceil(high) + 2];
  if (high - low < 12) [low, high] = [low - Math.ceil((12 - high + low) / 2), high + Math.ceil((12 - high + low) / 2)];
  const noiseRoom = hasNoise ? 16 : 0;
  const tall = strip.height - noiseRoom;
  const row = tall / (high - low);
  const toY = (key: number): number => strip.top + tall - (key - low) * row;
  heading(painting, "Notes", strip.top);
  context.strokeStyle = tones.rule;
  context.lineWidth = 1;
  for (let key = Math.ceil(low / 12) * 12; key <= high; key += 12) {
    line(context, [
      [left, toY(key)],
      [right, toY(key)],
    ]);
    text(painting, keyName(key), { x: left - 8, y: toY(key), align: "right" });
  }
  if (hasNoise) text(painting, "noise", { x: left - 8, y: strip.top + strip.height - 7, align: "right" });
  if (programme.highest !== undefined && programme.highest > 0) {
    const most = 69 + 12 * Math.log2(programme.highest / 440);
    if (most < high) band(painting, { top: strip.top, bottom: Math.min(strip.top + tall, toY(most)), edge: "bottom" });
  }
  context.save();
  context.beginPath();
  context.rect(left, strip.top, right - left, strip.height);
  context.clip();
  for (let n = 0; n < start.length; n++) {
    const [begins, ends] = [start[n] ?? 0, end[n] ?? 0];
    if (ends < sight.from) continue;
    if (begins > sight.to) break;
    const of = voice[n] ?? 0;
    const x = toPage(begins);
    const wide = Math.max(1.5, toPage(ends) - x - 1);
    // As heavy as it is loud.
    const heavy = Math.max(2.5, Math.min(row + 2, 12) * (0.35 + 0.65 * (velocity[n] ?? 1)));
    const y = noise[n] === 1 ? strip.top + strip.height - 7 : toY(pitch[n] ?? 0);
    const tone = tones.voices[of % tones.voices.length] ?? tones.ink;
    context.fillStyle = tone;
    context.strokeStyle = tone;
    if (muted.includes(of)) {
      context.setLineDash([3, 2]);
      context.strokeRect(x, y - heavy / 2, wide, heavy);
      context.setLineDash([]);
      continue;
    }
    context.globalAlpha = 0.85;
    context.fillRect(x, y - heavy / 2, wide, heavy);
    context.globalAlpha = 1;
    context.fillRect(x, y - heavy / 2 - 2, 1.5, heavy + 4);
    if ((lowered[n] ?? 0) > 0 && wide > 26)
      text(painting, `↓${lowered[n]} oct`, { x: x + 4, y: y - heavy / 2 - 6, tone: tones.stop });
  }
  context.restore();
  context.strokeStyle = tones.ink;
  context.lineWidth = 1;
  context.strokeRect(left, strip.top, right - left, strip.height);
}

function drawPulses(painting: Painting): void {
  const { context, programme, tones, layout, sight } = painting;
  const { pulses: strip, left, right } = layout;
  const { start, onTime, wantedOnTime, fate } = programme.pulses;
  const limit = programme.limits?.onTime ?? 0;
  let most = limit;
  for (const wanted of wantedOnTime) most = Math.max(most, wanted);
  if (most === 0) most = 1e-4;
  const high = 1.18 * most;
  const toY = valueScale(strip, { high });
  const foot = strip.top + strip.height;
  const { toPage } = timeScale(layout, sight);
  if (limit > 0) {
    band(painting, { top: strip.top, bottom: toY(limit), edge: "bottom" });
    text(painting, formatQuantity(limit, "s", { digits: 3, trim: true }), {
      x: left - 6,
      y: toY(limit),
      align: "right",
    });
  }
  const lit = programme.litFrom ?? 0;
  if (lit > 0 && lit < high) {
    context.fillStyle = tones.hair;
    context.globalAlpha = 0.6;
    context.fillRect(left, toY(lit), right - left, foot - toY(lit));
    context.globalAlpha = 1;
    if (foot - toY(lit) > 12)
      text(painting, layout.width < 520 ? "unlit" : "no spark", {
        x: left - 6,
        y: (foot + toY(lit)) / 2,
        align: "right",
      });
  }
  // The longest of each half pixel: many lie on one another.
  const [first, last] = [firstFrom(start, sight.from), firstFrom(start, sight.to)];
  const columns = new Map<number, { sent: number; wanted: number }>();
  for (let n = first; n < last; n++) {
    const column = Math.round(2 * toPage(start[n] ?? 0)) / 2;
    const known = columns.get(column) ?? { sent: 0, wanted: 0 };
    known.sent = Math.max(known.sent, onTime[n] ?? 0);
    if (fates[fate[n] ?? 0] !== "merged") known.wanted = Math.max(known.wanted, wantedOnTime[n] ?? 0);
    columns.set(column, known);
  }
  const stroke = (
    tone: string,
    width: number,
    of: (column: { sent: number; wanted: number }) => readonly [number, number] | undefined,
  ) => {
    context.strokeStyle = tone;
    context.lineWidth = width;
    context.beginPath();
    for (const [x, column] of columns) {
      const span = of(column);
      if (span === undefined) continue;
      context.moveTo(x, toY(span[0]));
      context.lineTo(x, toY(span[1]));
    }
    context.stroke();
  };
  const width = Math.min(3, Math.max(0.7, (0.6 * (right - left)) / Math.max(1, last - first)));
  stroke(tones.fix, Math.max(1, width / 2), ({ sent, wanted }) => (wanted > sent * 1.001 ? [sent, wanted] : undefined));
  stroke(tones.ink, width, ({ sent }) => (sent > 0 ? [0, sent] : undefined));
  context.strokeStyle = tones.ink;
  context.lineWidth = 1;
  context.strokeRect(left, strip.top, right - left, strip.height);
}

const markSize = 11;

/** A mark in each stretch as wide as one, of the reason that is commonest there. */
function drawMarks(painting: Painting): void {
  const { context, programme, tones, layout, sight } = painting;
  const { start, fate, reason } = programme.pulses;
  const { toPage } = timeScale(layout, sight);
  heading(painting, "Pulses", layout.trimmed.top);
  text(painting, layout.width < 520 ? "short" : "shortened", {
    x: layout.left - 6,
    y: layout.trimmed.top + 6.5,
    align: "right",
  });
  text(painting, layout.width < 520 ? "out" : "left out", {
    x: layout.left - 6,
    y: layout.dropped.top + 6.5,
    align: "right",
  });
  const [first, last] = [firstFrom(start, sight.from), firstFrom(start, sight.to)];
  for (const kind of ["trimmed", "dropped"] as const) {
    const code = fates.indexOf(kind);
    const cells = new Map<number, Map<number, number>>();
    for (let n = first; n < last; n++) {
      if (fate[n] !== code) continue;
      const cell = Math.floor((toPage(start[n] ?? 0) - layout.left) / (markSize + 1));
      const counts = cells.get(cell) ?? new Map<number, number>();
      const why = reason[n] ?? 0;
      counts.set(why, (counts.get(why) ?? 0) + 1);
      cells.set(cell, counts);
    }
    for (const [cell, counts] of cells) {
      // The last one stays inside the frame.
      const x = Math.min(layout.left + cell * (markSize + 1), layout.right - markSize);
      const [why = 0] = [...counts].sort(([, a], [, b]) => b - a)[0] ?? [];
      const name = programme.because[why]?.reason ?? "none";
      context.save();
      context.translate(x, layout[kind].top + 1);
      context.scale(markSize / 10, markSize / 10);
      const shape = new Path2D(markPaths[name]);
      context.lineWidth = 1.2;
      context.strokeStyle = name === "muted" ? tones.soft : kind === "dropped" ? tones.stop : tones.fix;
      context.fillStyle = context.strokeStyle;
      if (kind === "dropped") context.fill(shape);
      context.stroke(shape);
      context.restore();
    }
  }
}

/** A line of steps through the stretches of the history. */
function course(
  { context, layout, sight }: Painting,
  { time, stretch }: { time: Float64Array; stretch: number },
  {
    values,
    toY,
    tone,
    dashed = false,
  }: { values: Float64Array; toY: (value: number) => number; tone: string; dashed?: boolean },
): void {
  const { toPage } = timeScale(layout, sight);
  context.save();
  context.beginPath();
  context.rect(layout.left, 0, layout.right - layout.left, layout.height);
  context.clip();
  context.strokeStyle = tone;
  context.lineWidth = 1.5;
  context.setLineDash(dashed ? [4, 2] : []);
  context.beginPath();
  for (let n = 0; n < time.length; n++) {
    const [begins, y] = [time[n] ?? 0, toY(values[n] ?? 0)];
    if (begins + stretch < sight.from || begins > sight.to) continue;
    context.lineTo(toPage(begins), y);
    context.lineTo(toPage(begins + stretch), y);
  }
  context.stroke();
  context.restore();
}

function drawDuty(painting: Painting): void {
  const { context, programme, tones, layout } = painting;
  const { duty: strip, left, right } = layout;
  const { history, limits } = programme;
  const limit = limits?.duty ?? 0;
  let most = limit;
  for (const value of history.duty) most = Math.max(most, value);
  const toY = valueScale(strip, { high: 1.25 * most || 1 });
  heading(painting, "Duty: worst 20 ms, and dashed worst second", strip.top);
  if (limit > 0) {
    band(painting, { top: strip.top, bottom: toY(limit), edge: "bottom" });
    text(painting, formatQuantity(limit, "%", { digits: 3, trim: true }), {
      x: left - 6,
      y: toY(limit),
      align: "right",
    });
  }
  course(painting, history, { values: history.duty, toY, tone: tones.ink });
  course(painting, history, { values: history.dutySecond, toY, tone: tones.ink, dashed: true });
  context.strokeStyle = tones.ink;
  context.strokeRect(left, strip.top, right - left, strip.height);
}

function drawJunction(painting: Painting): void {
  const { context, programme, tones, layout } = painting;
  const { junction: strip, left, right } = layout;
  const { history, limits } = programme;
  const most = limits?.junction?.most;
  const known = most !== undefined && history.junction.some((value) => value > 0);
  heading(painting, known ? "Junction, °C" : "Junction: not known, the file lacks what it needs", strip.top);
  if (known && limits?.junction !== undefined) {
    const low = limits.junction.ambient;
    const high = most + 0.15 * (most - low);
    const toY = valueScale(strip, { low, high });
    band(painting, { top: strip.top, bottom: toY(most), edge: "bottom" });
    text(painting, (most - kelvinZero).toFixed(0), { x: left - 6, y: toY(most), align: "right" });
    text(painting, (low - kelvinZero).toFixed(0), { x: left - 6, y: strip.top + strip.height - 4, align: "right" });
    course(painting, history, { values: history.junction, toY, tone: tones.voices[1] ?? tones.ink });
  }
  context.strokeStyle = tones.ink;
  context.lineWidth = 1;
  context.strokeRect(left, strip.top, right - left, strip.height);
}
