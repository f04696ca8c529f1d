/** The picture of the programme, the position in it, and what the marks say one by one. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { useSize } from "../drawing/use-size.ts";
import { theme } from "../state/view.ts";
import { seek } from "./player.ts";
import { fates, type ShownProgramme } from "./programme-answer.ts";
import { look, options, pan, position, shown, sight, staleShown, zoom } from "./programme-state.ts";
import { ReasonMark } from "./reason-marks.tsx";
import { drawRoll, readTones } from "./roll-draw.ts";
import { firstFrom, layRoll, timeScale } from "./roll-layout.ts";

/** Entry of the pulse that is told about. */
const told = signal<number | undefined>(undefined);

const seconds = (value: number): string => `${value.toFixed(3)} s`;
const onTime = (value: number): string => formatQuantity(value, "s", { digits: 3, trim: true });

export function RollView() {
  const programme = shown.value;
  const { ref, size } = useSize<HTMLElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  const width = Math.max(260, Math.floor(size.width));
  const layout = layRoll(width);
  const { from, to } = sight.value;
  useEffect(() => {
    const element = canvas.current;
    const context = element?.getContext("2d");
    if (element === null || context === null || context === undefined || programme === undefined) return;
    const density = devicePixelRatio;
    element.width = Math.round(width * density);
    element.height = Math.round(layout.height * density);
    context.setTransform(density, 0, 0, density, 0, 0);
    drawRoll({
      context,
      programme,
      tones: readTones(element),
      sight: { from, to },
      muted: options.peek().muted ?? [],
      width,
    });
  }, [programme, width, layout.height, from, to, theme.value]);
  if (programme === undefined) return null;
  const scale = timeScale(layout, { from, to });
  return (
    <section class="roll" aria-labelledby="roll-title" data-behind={staleShown.value || undefined}>
      <div class="roll-bar">
        <h2 id="roll-title">{programme.title}</h2>
        <p class="small">{summary(programme)}</p>
        <fieldset class="cluster" aria-label="Part of the programme in sight">
          <button type="button" class="square" aria-label="Earlier" onClick={() => pan(-0.5)}>
            ←
          </button>
          <button type="button" class="square" aria-label="Later" onClick={() => pan(0.5)}>
            →
          </button>
          <button type="button" class="square" aria-label="Closer" onClick={() => zoom(0.5)}>
            +
          </button>
          <button type="button" class="square" aria-label="Wider" onClick={() => zoom(2)}>
            −
          </button>
          <button type="button" onClick={() => look({ from: 0, to: programme.duration })}>
            Whole
          </button>
        </fieldset>
      </div>
      <section
        ref={ref}
        class="roll-field"
        aria-label="Notes, pulses, duty and junction over time"
        aria-describedby="roll-keys"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved and zoomed by keys
        tabIndex={0}
        onKeyDown={onKey}
        onPointerDown={(event) => {
          const x = event.clientX - event.currentTarget.getBoundingClientRect().left;
          if (x >= layout.left && x <= layout.right) seek(scale.toTime(x));
        }}
      >
        <canvas ref={canvas} style={{ width: `${width}px`, height: `${layout.height}px` }} />
        <PositionLine toPage={scale.toPage} left={layout.left} right={layout.right} height={layout.axis.top} />
      </section>
      <p id="roll-keys" class="small">
        Press into the picture to go there. Keys: ← → along, + − closer and wider, 0 the whole, N and P the next and the
        previous mark.
      </p>
      <MarkTeller programme={programme} />
    </section>
  );
}

function summary({ figures, voices, duration }: ShownProgramme): string {
  const value = (id: string) => figures.get(id)?.value ?? 0;
  const count = (id: string) => String(Math.round(value(id)));
  if (figures.size === 0) return "Nothing is planned: without an interrupter in the coil file there are no limits.";
  const names = voices.length === 1 ? "1 voice" : `${voices.length} voices`;
  return `${names}, ${formatQuantity(duration, "s", { digits: 3, trim: true })}: ${count("programme.pulses")} of ${count("programme.wanted")} pulses are sent, ${count("programme.trimmed")} of them shortened; ${count("programme.merged")} are merged with those of another note, ${count("programme.dropped")} are left out.`;
}

function onKey(event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const acts: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => pan(-0.2),
    ArrowRight: () => pan(0.2),
    "+": () => zoom(0.5),
    "-": () => zoom(2),
    "0": () => look({ from: 0, to: shown.peek()?.duration ?? 1 }),
    n: () => toMark(1),
    p: () => toMark(-1),
  };
  const act = acts[event.key];
  if (act === undefined) return;
  event.preventDefault();
  act();
}

/** Moves by itself, so that the picture is not painted again. */
function PositionLine({
  toPage,
  left,
  right,
  height,
}: {
  readonly toPage: (time: number) => number;
  readonly left: number;
  readonly right: number;
  readonly height: number;
}) {
  const x = toPage(position.value);
  if (x < left - 1 || x > right + 1) return null;
  return <div class="roll-position" style={{ transform: `translateX(${x}px)`, height: `${height}px` }} />;
}

const isMarked = ({ pulses, because }: ShownProgramme, at: number): boolean => {
  const fate = fates[pulses.fate[at] ?? 0];
  return (fate === "trimmed" || fate === "dropped") && because[pulses.reason[at] ?? 0]?.reason !== "muted";
};

/** Goes to the next mark in a direction, from the last one told about or from the position. */
function toMark(direction: 1 | -1): void {
  const programme = shown.peek();
  if (programme === undefined) return;
  const { start } = programme.pulses;
  const last = told.peek();
  const isHere = last !== undefined && Math.abs((start[last] ?? 0) - position.peek()) < 1e-9;
  const begin = firstFrom(start, position.peek());
  let at = isHere ? last + direction : direction === 1 ? begin : begin - 1;
  while (at >= 0 && at < start.length && !isMarked(programme, at)) at += direction;
  if (at < 0 || at >= start.length) {
    told.value = undefined;
    return;
  }
  told.value = at;
  seek(start[at] ?? 0);
}

/** One shortened or left-out pulse after the other, in words. */
function MarkTeller({ programme }: { readonly programme: ShownProgramme }) {
  const at = told.value;
  const { pulses, because, voices } = programme;
  const known = at !== undefined && at < pulses.start.length && isMarked(programme, at) ? at : undefined;
  const kind = known !== undefined && fates[pulses.fate[known] ?? 0] === "dropped" ? "dropped" : "trimmed";
  const why = known === undefined ? undefined : because[pulses.reason[known] ?? 0];
  return (
    <div class="mark-teller">
      <button type="button" onClick={() => toMark(-1)}>
        Previous mark
      </button>
      <button type="button" onClick={() => toMark(1)}>
        Next mark
      </button>
      <output aria-live="polite">
        {known === undefined || why === undefined ? (
          "No mark is told about."
        ) : (
          <>
            <ReasonMark reason={why.reason} kind={kind} />
            {` At ${seconds(pulses.start[known] ?? 0)}, ${voices[pulses.voice[known] ?? 0]?.name ?? "a voice"}: ${
              kind === "dropped"
                ? `left out ${why.says}; ${onTime(pulses.wantedOnTime[known] ?? 0)} was wanted`
                : `${onTime(pulses.onTime[known] ?? 0)} in place of ${onTime(pulses.wantedOnTime[known] ?? 0)} ${why.says}`
            }.`}
          </>
        )}
      </output>
    </div>
  );
}
