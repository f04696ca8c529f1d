/** On a narrow page the notes of the drawing stand below it, each pressed to be typed over like those on leaders. */

import type { Dimension } from "../../views/drawing.ts";
import { wordsOf } from "../../views/drawing-layout.ts";
import { drawable } from "../state/document.ts";
import { editing } from "../state/view.ts";
import { dimensionKey } from "./change-dimension.ts";
import { originWords } from "./origin-words.ts";

export function NotesList({ dimensions }: { readonly dimensions: readonly Dimension[] }) {
  const provenances = drawable.value?.file.provenances;
  return (
    <ul class="notes-list" aria-label="Notes on the drawing">
      {dimensions.map((dimension) => {
        const origin = provenances?.get(dimension.path);
        const words = wordsOf(dimension);
        return (
          <li key={dimension.path}>
            <span
              class="note"
              role="spinbutton"
              tabIndex={0}
              data-path={dimension.path}
              data-origin={origin?.origin}
              aria-label={dimension.says}
              aria-valuenow={dimension.value}
              aria-valuetext={`${words}, ${originWords(origin)}`}
              aria-describedby="dimension-keys"
              onClick={() => {
                editing.value = dimension.path;
              }}
              onKeyDown={(event) => dimensionKey(dimension, event)}
            >
              {words}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
