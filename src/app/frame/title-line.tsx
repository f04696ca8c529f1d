/** Top of the sheet: which coil, which room, and what can be done with the file. */
import { GestureButton } from "../gestures/gesture-button.tsx";
import { rooms } from "../rooms/registry.ts";
import { dirty, drawable, onDisk } from "../state/document.ts";
import { room } from "../state/view.ts";
import { FileMenu } from "./file-menu.tsx";

export function TitleLine() {
  return (
    <header class="title-line">
      <div class="which">
        <h1>{drawable.value?.coil.name ?? "Coilwright"}</h1>
        <p class="file-state" data-dirty={dirty.value || undefined}>
          {onDisk.value.name}
          <span>{dirty.value ? "not saved" : onDisk.value.demo ? "demo" : "saved"}</span>
        </p>
      </div>
      <nav class="rooms" aria-label="Rooms">
        {rooms.map(({ id, name, question }, index) => (
          <a key={id} href={`#${id}`} aria-current={room.value === id ? "page" : undefined} title={question}>
            <span class="sheet-number">{index + 1}</span>
            {name}
          </a>
        ))}
      </nav>
      <fieldset class="tools" aria-label="File and history">
        <GestureButton id="undo" />
        <GestureButton id="redo" />
        <GestureButton id="save" />
        <span class="wide-only">
          <GestureButton id="text" />
          <GestureButton id="theme" />
        </span>
        <FileMenu />
      </fieldset>
    </header>
  );
}
