/** Do supply, bridge, gate drive, feedback and trips hold? */
import { schematic } from "../../views/schematic.ts";
import { stresses } from "../../views/schematic-stress.ts";
import { timeText } from "../../views/waveform-words.ts";
import { burst, burstBehind, moved, shownDoubts, shownFigures } from "../burst/burst-state.ts";
import { MissingList } from "../burst/missing-list.tsx";
import { RoomFindings } from "../burst/room-findings.tsx";
import { Ledger } from "../ledger/ledger.tsx";
import { answer } from "../state/answers.ts";
import { drawable } from "../state/document.ts";
import { chosen } from "./driver-state.ts";
import { JunctionPlot } from "./junction-plot.tsx";
import { MomentPlayer } from "./moment-player.tsx";
import { PartPanel } from "./part-panel.tsx";
import { mostStressed, SchematicView } from "./schematic-view.tsx";

const groups = ["switch", "bus", "mains", "gate", "feedback", "control", "bank"];

export function DriverRoom() {
  const found = burst.value;
  const coil = drawable.value?.coil;
  const figures = shownFigures.value;
  const isMoved = Object.keys(moved.value).length > 0;
  if (found === undefined || coil === undefined || figures === undefined) {
    return (
      <div class="room driver-room">
        <p class="empty">{answer.value?.failed ?? "The driver appears here when the coil has been solved."}</p>
        <Ledger only={groups} />
      </div>
    );
  }
  const { study, findings } = found;
  const held = stresses(coil, figures);
  const most = mostStressed(held);
  const { boxes } = schematic(coil);
  const box = boxes.find(({ part }) => part === (chosen.value ?? most?.part)) ?? boxes[0];
  const { onTime, rate } = study.setting;
  return (
    <div class="room driver-room">
      <div class="burst-studies driver-studies" data-behind={burstBehind.value || undefined}>
        <p class="at-setting">
          <span>
            {`At ${timeText(onTime, 3)} on-time and ${Number(rate.toPrecision(4))} bursts a second, ${isMoved ? "moved away from the file" : "as in the file"}.`}
          </span>{" "}
          <a href="#burst">Move the setting</a>
        </p>
        <SchematicView coil={coil} stresses={held} findings={findings.driver} />
        <MissingList study={study} />
        {study.waveforms !== undefined && <MomentPlayer kind={coil.bridge?.kind ?? "half"} />}
        <JunctionPlot study={study} most={coil.bridge?.switch.junctionMax} />
      </div>
      <div class="burst-side">
        {box && <PartPanel box={box} stresses={held} figures={figures} findings={findings.driver} />}
        <RoomFindings findings={findings.driver} title="Findings of the driver" />
        <Ledger only={groups} figures={figures} intervals={shownDoubts.value} />
      </div>
    </div>
  );
}
