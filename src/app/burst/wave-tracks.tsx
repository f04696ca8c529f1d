/** The tracks of a burst on one time axis, with its marks. Draws; knows no physics. */
import { axisNumbers } from "../../views/axis-numbers.ts";
import type { LaidTrack, LaidWaveforms, WaveMark } from "../../views/waveform.ts";

interface Properties {
  readonly laid: LaidWaveforms;
  readonly marks: readonly WaveMark[];
  readonly width: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function Track({ track, left, right }: { readonly track: LaidTrack; readonly left: number; readonly right: number }) {
  const { id, name, short, unit, y, top, bottom, path } = track;
  const shown = axisNumbers(y.ticks, unit, y.high);
  const isGate = unit === "1";
  return (
    <g>
      {!isGate &&
        y.ticks.map((tick, n) => (
          <g key={tick}>
            <path class={tick === 0 ? "zero" : "hair"} d={`M${left} ${y.toPage(tick)}H${right}`} />
            <text class="tick" x={left - 6} y={y.toPage(tick)} dy="0.34em" text-anchor="end">
              {shown.numbers[n]}
            </text>
          </g>
        ))}
      <path class="axis" d={`M${left} ${top}V${bottom}`} />
      <path class={`wave ${id}`} d={path} data-track={id} />
      {isGate ? (
        <text class="tick words" x={left - 6} y={(top + bottom) / 2} dy="0.34em" text-anchor="end">
          {short ?? name}
        </text>
      ) : (
        <text class="track-name" x={left} y={top - 5}>
          {`${name}, ${shown.unit}`}
        </text>
      )}
    </g>
  );
}

/** Words over the marks: each on the first row where it does not touch the one before it. */
function rowsOf(marks: readonly WaveMark[], toPage: (time: number) => number): number[] {
  const ends: number[] = [];
  return marks.map(({ name, time }) => {
    const at = toPage(time);
    const row = ends.findIndex((end) => end < at);
    const free = row < 0 ? ends.length : row;
    ends[free] = at + 7 * name.length + 10;
    return free;
  });
}

export function WaveTracks({ laid, marks, width, left, right, top, bottom }: Properties) {
  const { x, tracks, height } = laid;
  const base = height - bottom;
  const times = axisNumbers(x.ticks, "s", x.high);
  const inView = marks.filter(({ time }) => time >= x.low && time <= x.high);
  const rows = rowsOf(inView, x.toPage);
  return (
    <svg class="waves" width={width} height={height} aria-hidden="true">
      {x.ticks.map((tick, n) => (
        <g key={tick}>
          <path class="hair" d={`M${x.toPage(tick)} ${top}V${base}`} />
          <text class="tick" x={x.toPage(tick)} y={base + 16} text-anchor="middle">
            {times.numbers[n]}
          </text>
        </g>
      ))}
      <text class="tick words" x={(left + right) / 2} y={base + 31} text-anchor="middle">
        time, {times.unit}
      </text>
      {tracks.map((track) => (
        <Track key={track.id} track={track} left={left} right={right} />
      ))}
      {inView.map(({ id, name, time }, n) => {
        const at = x.toPage(time);
        const flip = at > right - 7 * name.length;
        const y = top - 22 - 13 * (rows[n] ?? 0);
        return (
          <g key={id} class={`moment ${id}`}>
            <path d={`M${at} ${y - 9}V${base}`} />
            <text x={at + (flip ? -4 : 4)} y={y} text-anchor={flip ? "end" : "start"}>
              {name}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
