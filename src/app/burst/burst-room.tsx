/** What happens in one burst, and who pays for it? */
import "./burst.css";
import { Ledger } from "../ledger/ledger.tsx";
import { answer } from "../state/answers.ts";
import { burst, burstBehind, moved, shownFigures } from "./burst-state.ts";
import { EnergyLedger } from "./energy-ledger.tsx";
import { MissingList } from "./missing-list.tsx";
import { RoomFindings } from "./room-findings.tsx";
import { SettingPanel } from "./setting-panel.tsx";
import { SpectrumPlot } from "./spectrum-plot.tsx";
import { WaveformView } from "./waveform-view.tsx";

const groups = ["burst", "bank", "winding", "bus", "mains"];

export function BurstRoom() {
  const found = burst.value;
  const isMoved = Object.keys(moved.value).length > 0;
  if (found === undefined) {
    return (
      <div class="room burst-room">
        <p class="empty">{answer.value?.failed ?? "The burst appears here when the coil has been solved."}</p>
        <Ledger only={groups} />
      </div>
    );
  }
  const { study, findings } = found;
  return (
    <div class="room burst-room">
      <div class="burst-studies" data-behind={burstBehind.value || undefined}>
        <MissingList study={study} />
        {study.waveforms !== undefined && (
          <>
            <WaveformView study={study} />
            <div class="pair">
              <EnergyLedger />
              <SpectrumPlot study={study} />
            </div>
          </>
        )}
      </div>
      <div class="burst-side">
        <SettingPanel study={study} />
        <RoomFindings findings={findings.burst} title="Findings of this burst" isMoved={isMoved} />
        <Ledger only={groups} figures={shownFigures.value} />
      </div>
    </div>
  );
}
