/** What is it, to scale, and can it be built? The drawing, with the ledger beside it. */
import { mainCamera } from "../drawing/camera.ts";
import { Sheet } from "../drawing/sheet.tsx";
import { TitleBlock } from "../frame/title-block.tsx";
import { Ledger } from "../ledger/ledger.tsx";

export function ShapeRoom() {
  return (
    <div class="room shape-room">
      <Sheet holder={mainCamera} layers>
        <TitleBlock camera={mainCamera.camera.value} />
      </Sheet>
      <Ledger />
    </div>
  );
}
