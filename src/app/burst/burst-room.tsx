/** What happens in one burst, and who pays for it? */
import { Ledger } from "../ledger/ledger.tsx";
import { answer } from "../state/answers.ts";
import { BehindBox } from "./behind-box.tsx";
import { burst, calmBurst, calmFigures, shownDoubts } from "./burst-state.ts";
import { EnergyLedger } from "./energy-ledger.tsx";
import { MissingList } from "./missing-list.tsx";
import { RoomFindings } from "./room-findings.tsx";
import { SettingPanel } from "./setting-panel.tsx";
import { SpectrumPlot } from "./spectrum-plot.tsx";
import { WaveformView } from "./waveform-view.tsx";

const groups = ["burst", "bank", "winding", "bus", "mains"];

/** Findings and figures: they follow a moving slider a little more calmly than the waveforms. */
function Accounts() {
  return (
    <>
      <RoomFindings findings={calmBurst.value?.findings.burst ?? []} title="Findings of this burst" />
      <Ledger only={groups} figures={calmFigures.value} intervals={shownDoubts.value} />
    </>
  );
}

export function BurstRoom() {
  const study = burst.value?.study;
  if (study === undefined) {
    return (
      <div class="room burst-room">
        <p class="empty">{answer.value?.failed ?? "The burst appears here when the coil has been solved."}</p>
        <Ledger only={groups} />
      </div>
    );
  }
  return (
    <div class="room burst-room">
      <BehindBox class="burst-studies">
        {study.waveforms === undefined ? (
          <MissingList study={study} />
        ) : (
          <>
            <WaveformView study={study} />
            <MissingList study={study} />
            <div class="pair">
              <EnergyLedger />
              <SpectrumPlot study={study} />
            </div>
          </>
        )}
      </BehindBox>
      <div class="burst-side">
        <SettingPanel />
        <Accounts />
      </div>
    </div>
  );
}
