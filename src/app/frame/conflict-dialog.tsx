/** The file on disk is another one than the text here was made from: somebody chooses, nothing is overwritten before. */
import { useEffect, useRef, useState } from "preact/hooks";
import { history } from "../state/document.ts";
import { conflict, keepMine, takeTheirs } from "../state/filing.ts";
import { present } from "../state/history.ts";
import { pairLines } from "./line-difference.ts";

export function ConflictDialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  const [both, setBoth] = useState(false);
  const found = conflict.value;
  useEffect(() => {
    if (found !== undefined && dialog.current?.open === false) dialog.current.showModal();
    if (found === undefined) dialog.current?.close();
  }, [found]);
  const leave = (act: () => void) => {
    // at once, so that the next key already reaches the page
    dialog.current?.close();
    setBoth(false);
    act();
  };
  const later = () => {
    conflict.value = undefined;
  };
  const gone = found !== undefined && found.theirs === undefined;
  return (
    <dialog ref={dialog} class="conflict" aria-labelledby="conflict-title" onCancel={later}>
      <h2 id="conflict-title">{gone ? "The file is gone from the disk" : "The file changed on disk"}</h2>
      <p>
        {gone
          ? "It was moved, renamed or deleted while you worked on it here."
          : "Somebody or something else wrote it while you worked on it here. Nothing has been overwritten."}
      </p>
      {both && found?.theirs !== undefined && (
        <section
          class="both"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls by keys
          tabIndex={0}
          aria-label="Both texts, line by line"
        >
          <table>
            <thead>
              <tr>
                <th scope="col">mine</th>
                <th scope="col">on disk</th>
              </tr>
            </thead>
            <tbody>
              {pairLines(present(history.value).text, found.theirs).map((pair, index) => (
                <tr key={index} class={pair.same ? undefined : "differs"}>
                  <td>{pair.mine}</td>
                  <td>{pair.theirs}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      <div class="actions">
        <button type="button" onClick={() => leave(() => void keepMine())}>
          {gone ? "Write mine again" : "Keep mine and write it"}
        </button>
        {!gone && (
          <button type="button" onClick={() => leave(takeTheirs)}>
            Take theirs
          </button>
        )}
        {!gone && (
          <button type="button" aria-pressed={both} onClick={() => setBoth(!both)}>
            {both ? "Hide both" : "Show both"}
          </button>
        )}
        <button type="button" onClick={() => leave(later)}>
          Decide later
        </button>
      </div>
    </dialog>
  );
}
