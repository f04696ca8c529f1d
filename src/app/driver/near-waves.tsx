/** Current and bridge voltage around the moment, with the moment in the middle. */
import { layWaveforms, spanWithin, tracksOf } from "../../views/waveform.ts";
import { burstEnd, waves } from "../burst/time-window.ts";
import { WaveTracks } from "../burst/wave-tracks.tsx";
import { useSize } from "../drawing/use-size.ts";
import { halfCycle, momentTime } from "./driver-state.ts";

const margin = { left: 46, right: 8, top: 20, bottom: 38 };
const shown: readonly string[] = ["primaryCurrent", "bridgeVoltage", "tankVoltage"];

export function NearWaves() {
  const { ref, size } = useSize<HTMLDivElement>();
  const known = waves.value;
  const width = Math.max(Math.floor(size.width), 240);
  const at = momentTime.value;
  const half = halfCycle.value;
  const laid =
    known &&
    layWaveforms({
      tracks: tracksOf(known, "waves").filter(({ id }) => shown.includes(id)),
      span: spanWithin({ from: at - 2 * half, to: at + 2 * half }, burstEnd.value, half),
      width,
      trackHeight: 54,
      margin,
      gap: 20,
      fitted: false,
    });
  return (
    <div class="near-waves" ref={ref}>
      {laid && (
        <>
          <WaveTracks
            laid={laid}
            marks={[]}
            width={width}
            left={margin.left}
            right={width - margin.right}
            top={margin.top}
            bottom={margin.bottom}
          />
          <svg class="now" width={width} height={laid.height} aria-hidden="true">
            <path d={`M${laid.x.toPage(at)} ${margin.top - 6}V${laid.height - margin.bottom}`} />
          </svg>
        </>
      )}
    </div>
  );
}
