/** The waveforms of the burst: tracks, marks, cursors and what these read. */
import { useEffect, useRef } from "preact/hooks";
import type { Scale } from "../../views/plots.ts";
import { layWaveforms, marksOf, tracksOf } from "../../views/waveform.ts";
import { cursorText, waveformSummary } from "../../views/waveform-words.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { useSize } from "../drawing/use-size.ts";
import { CursorHandle } from "./cursor-handle.tsx";
import { CursorTable } from "./cursor-table.tsx";
import { EnergyStack } from "./energy-stack.tsx";
import { cursors, fitted, span, waves, waveView } from "./time-window.ts";
import { useWavePointer } from "./use-wave-pointer.ts";
import { WaveBar } from "./wave-bar.tsx";
import { WaveTracks } from "./wave-tracks.tsx";

const flags = 26;
const rowsOfMarks = 2;
const gap = 20;

/** Tall enough to read, and short enough that most of them are in view at once. */
const heightOfTrack = (isNarrow: boolean) => (isNarrow ? 76 : Math.min(Math.max((innerHeight - 440) / 4.6, 70), 150));

export function WaveformView({ study }: { readonly study: BurstStudy }) {
  const { ref, size } = useSize<HTMLDivElement>();
  const scale = useRef<Scale | null>(null);
  useWavePointer(ref, scale);
  const known = waves.value;
  const width = Math.max(Math.floor(size.width), 240);
  const isNarrow = width < 520;
  const margin = { left: isNarrow ? 44 : 58, right: 10, top: flags + 13 * rowsOfMarks + 22, bottom: 40 };
  const marks = marksOf(study);
  const laid =
    known &&
    layWaveforms({
      tracks: tracksOf(known, waveView.value),
      span: span.value,
      width,
      trackHeight: heightOfTrack(isNarrow),
      margin,
      gap,
      fitted: fitted.value,
    });
  useEffect(() => {
    scale.current = laid?.x ?? null;
  });
  const { A, B } = cursors.value;
  return (
    <section class="waveforms" aria-labelledby="waveforms-title">
      <WaveBar study={study} />
      <p class="only-heard">{laid && waveformSummary(study, marks, span.value)}</p>
      <div class="wave-field" ref={ref}>
        {laid && known && (
          <>
            <WaveTracks
              laid={laid}
              marks={marks}
              width={width}
              left={margin.left}
              right={width - margin.right}
              top={margin.top}
              bottom={margin.bottom}
            />
            <EnergyStack waves={known} x={laid.x} width={width} left={margin.left} height={isNarrow ? 110 : 140} />
            {(["A", "B"] as const).map((name) => (
              <CursorHandle
                key={name}
                name={name}
                x={laid.x}
                left={margin.left}
                height={laid.height + (isNarrow ? 110 : 140) - 22}
                says={cursorText(laid.tracks, name === "A" ? A : B)}
              />
            ))}
          </>
        )}
      </div>
      {laid && <CursorTable tracks={laid.tracks} />}
    </section>
  );
}
