/** The workbench: title line, one room, findings always in sight. */

import { FindingsStrip } from "./findings/findings-strip.tsx";
import { ConflictDialog } from "./frame/conflict-dialog.tsx";
import { DropTarget } from "./frame/drop-target.tsx";
import { KeysDialog } from "./frame/keys-dialog.tsx";
import { LiveRegion } from "./frame/live-region.tsx";
import { NoticeLine } from "./frame/notice-line.tsx";
import { SafetyLine } from "./frame/safety-line.tsx";
import { TitleLine } from "./frame/title-line.tsx";
import { rooms } from "./rooms/registry.ts";
import { room, textShown } from "./state/view.ts";
import { TextView } from "./text/text-view.tsx";
import { WhyDoor } from "./why/why-door.tsx";

export function App() {
  const open = rooms.find(({ id }) => id === room.value) ?? rooms[0];
  return (
    <div class="desk">
      <a class="skip" href={`#${open?.skip?.to ?? "ledger-title"}`}>
        {open?.skip?.says ?? "Skip to the ledger"}
      </a>
      <TitleLine />
      <main class="table" data-text={textShown.value || undefined}>
        {textShown.value && <TextView />}
        {open && <open.View />}
        <WhyDoor />
      </main>
      <footer>
        <FindingsStrip />
        <SafetyLine />
      </footer>
      <p id="dimension-keys" hidden>
        Enter to type a value, arrow keys to change it, with Shift in fine steps.
      </p>
      <NoticeLine />
      <LiveRegion />
      <ConflictDialog />
      <KeysDialog />
      <DropTarget />
    </div>
  );
}
