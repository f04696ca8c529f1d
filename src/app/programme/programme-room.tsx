/** What may I play, and what will it do? */
import "./programme.css";
import { useEffect } from "preact/hooks";
import { FindingItem } from "../findings/finding-item.tsx";
import { Ledger } from "../ledger/ledger.tsx";
import { answer } from "../state/answers.ts";
import { dropTaker } from "../state/view.ts";
import { listenForComputerKeys, switchKeyboard } from "./computer-keys.ts";
import { followKeys, silenceKeys } from "./keys.ts";
import { KeysPanel } from "./keys-panel.tsx";
import { LivePanel } from "./live-panel.tsx";
import { disarm, followLine } from "./live-port.ts";
import { leaveMidi } from "./midi-input.ts";
import { OutputsPanel } from "./outputs-panel.tsx";
import { listenForPanic, onPanic } from "./panic.ts";
import { followPlayer, silencePlayer } from "./player.ts";
import { followProgramme, planned, shown, takeFiles, unread } from "./programme-state.ts";
import { ReasonsPanel } from "./reasons-panel.tsx";
import { RollView } from "./roll-view.tsx";
import { SongChooser, WrittenPanel } from "./song-panel.tsx";
import { Transport } from "./transport.tsx";
import { FitPanel, VoicesPanel } from "./voices-panel.tsx";

// The room's inside is fetched once: from here on it keeps up with the text.
followProgramme();
followPlayer();
followKeys();
followLine();
listenForComputerKeys();
onPanic(() => disarm("Off: silenced."));
onPanic(silenceKeys);
onPanic(silencePlayer);
listenForPanic();

const groups = ["programme"];
/** A programme's figures carry their own intervals. */
const noIntervals = new Map();

export function ProgrammeRoom() {
  useEffect(() => {
    dropTaker.value = (files) => void takeFiles(files);
    return () => {
      dropTaker.value = undefined;
      disarm("Off: the room was left.");
      switchKeyboard(false);
      leaveMidi();
      silenceKeys();
      silencePlayer();
    };
  }, []);
  const programme = shown.value;
  const failed = planned.value?.failed ?? answer.value?.failed;
  return (
    <div class="room programme-room">
      <div class="programme-main" id="programme-page" tabIndex={-1}>
        <p class="programme-caution">
          High voltage can kill, also while it sings. Nobody inside the line that Stand-off gives, ears covered, a hand
          at the stop. Nothing here is a permission to switch on.
        </p>
        <SongChooser />
        {programme !== undefined && (failed !== undefined || unread.value) && (
          <p class="wrong" role="alert">
            {failed === undefined ? "The song could not be read" : `Nothing was planned: ${failed}`}. What is shown
            below is older.
          </p>
        )}
        {programme === undefined ? (
          <p class="empty">{failed ?? "The programme appears here when the coil has been solved."}</p>
        ) : (
          <>
            <Transport />
            <RollView />
            <p class="small">
              The preview is a model of clicks. It says nothing of how loud the coil is: expect it far louder.
            </p>
            <KeysPanel />
            <OutputsPanel />
            <LivePanel />
          </>
        )}
      </div>
      <aside class="programme-side" aria-label="Notation, voices, reasons, figures">
        <WrittenPanel />
        <VoicesPanel />
        <FitPanel />
        <ReasonsPanel />
        {programme !== undefined && programme.findings.length > 0 && (
          <section class="room-findings" aria-labelledby="programme-findings">
            <h2 id="programme-findings">Findings of this programme</h2>
            <ol>
              {programme.findings.map((finding) => (
                <FindingItem key={`${finding.rule} ${finding.path} ${finding.what}`} finding={finding} />
              ))}
            </ol>
          </section>
        )}
        {programme !== undefined && <Ledger only={groups} figures={programme.figures} intervals={noIntervals} />}
      </aside>
    </div>
  );
}
