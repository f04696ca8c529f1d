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
      <div class="actions">
        <button type="button" onClick={close}>
          Close
        </button>
      </div>
    </dialog>
  );
}
