/** All keys in one place: those of the registry, and those of the drawing and the plots. */
import { useEffect, useRef } from "preact/hooks";
import { allGestures, shownKey } from "../gestures/registry.ts";
import { keysShown } from "../state/view.ts";

const onTheDrawing: readonly (readonly [string, string])[] = [
  ["Tab", "to the drawing, then from dimension to dimension"],
  ["Enter", "type over a dimension"],
  ["↑ ↓", "change it by a step; with Shift by a tenth, with Page Up and Page Down by ten"],
  ["+ −", "zoom, while the drawing itself has the focus"],
  ["arrows", "pan, while the drawing itself has the focus"],
  ["C, R", "fit the coil, fit the room"],
];
const onThePlots: readonly (readonly [string, string])[] = [
  ["← →", "move the crosshair; with Shift in fine steps"],
  ["Enter", "write the value under the crosshair into the file"],
];
const onTheWaveforms: readonly (readonly [string, string])[] = [
  ["← →", "move the cursor that has the focus; with Shift in fine steps, with Page Up and Page Down by ten"],
  ["Home, End", "to the begin and the end of the burst"],
  ["+ −", "zoom about the cursor"],
  [", .", "move the picture along"],
  ["H, 0", "one half-cycle, the whole burst"],
];
const onTheProgramme: readonly (readonly [string, string])[] = [
  ["Escape", "silence at once: preview, keys, and the line to a controller"],
  ["← →", "along the picture that has the focus; + − closer and wider, 0 the whole"],
  ["N, P", "the next and the previous pulse that was shortened or left out"],
  ["Z to /, Q to P", "two rows of a piano, while their switch is on"],
];
const onTheDiagram: readonly (readonly [string, string])[] = [
  ["Enter", "what is known of the part that has the focus"],
  ["← →", "on the moment: a step on or back; with Page Up and Page Down a half-cycle"],
  ["Space", "on the moment: play or pause"],
];

function KeyTable({ title, rows }: { readonly title: string; readonly rows: readonly (readonly [string, string])[] }) {
  return (
    <>
      <h3>{title}</h3>
      <dl class="keys">
        {rows.map(([key, says]) => (
          <div key={key}>
            <dt>{key}</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

export function KeysDialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  const open = keysShown.value;
  useEffect(() => {
    if (open && dialog.current?.open === false) dialog.current.showModal();
    if (!open) dialog.current?.close();
  }, [open]);
  const close = () => {
    keysShown.value = false;
  };
  const everywhere = allGestures()
    .filter(({ keys }) => keys.length > 0)
    .map(({ keys, label }) => [keys.map(shownKey).join(" or "), label] as const);
  return (
    <dialog ref={dialog} class="plain-dialog" aria-labelledby="keys-title" onClose={close}>
      <h2 id="keys-title" tabIndex={-1} autofocus>
        Keys
      </h2>
      <KeyTable title="Everywhere" rows={everywhere} />
      <KeyTable title="On the drawing" rows={onTheDrawing} />
      <KeyTable title="On the plots" rows={onThePlots} />
      <KeyTable title="On the waveforms" rows={onTheWaveforms} />
      <KeyTable title="On the diagram" rows={onTheDiagram} />
      <KeyTable title="In the programme" rows={onTheProgramme} />
      <div class="actions">
        <button type="button" onClick={close}>
          Close
        </button>
      </div>
    </dialog>
  );
}
