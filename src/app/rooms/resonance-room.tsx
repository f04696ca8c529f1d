/** Where does it ring, is it tuned, what moves the tune? The same drawing, smaller, with poles, modes and shifts beside it. */

import type { Dimension } from "../../views/drawing.ts";
import { sideCamera } from "../drawing/camera.ts";
import { Sheet } from "../drawing/sheet.tsx";
import { Ledger } from "../ledger/ledger.tsx";
import { DetuningBars } from "../resonance/detuning-bars.tsx";
import { ModeShapes } from "../resonance/mode-shapes.tsx";
import { PolePlots } from "../resonance/pole-plots.tsx";
import { TuneSensitivity } from "../resonance/tune-sensitivity.tsx";
import { behind, solution } from "../state/answers.ts";

const groups = ["tuning", "poles", "tank", "coupling", "secondary", "surroundings"];

/** The numbers that tune the coil, and those of the room. */
const tunes = ({ path, group }: Dimension) =>
  group === "room" || path === "primary.tap" || path.endsWith(".height") || path.endsWith("outerDiameter");

export function ResonanceRoom() {
  const found = solution.value;
  return (
    <div class="room resonance-room">
      <Sheet holder={sideCamera} carries={tunes} layers={false} />
      <div class="beside">
        <div class="studies" data-behind={behind.value || undefined}>
          {found === undefined ? (
            <p class="empty">Curves appear here when the coil has been solved.</p>
          ) : (
            <>
              <PolePlots solution={found} />
              <ModeShapes solution={found} />
              <DetuningBars solution={found} />
              <TuneSensitivity />
            </>
          )}
        </div>
        <Ledger only={groups} />
      </div>
    </div>
  );
}
