/** One note below the drawing. */
import type { Dimension } from "../../views/drawing.ts";
import { wordsOf } from "../../views/drawing-layout.ts";
import { drawable } from "../state/document.ts";
import { editing } from "../state/view.ts";
import { dimensionKey } from "./change-dimension.ts";
import { originWords } from "./origin-words.ts";
import { spokenValue } from "./spoken-value.ts";

export function NoteValue({ dimension }: { readonly dimension: Dimension }) {
  const origin = drawable.value?.file.provenances.get(dimension.path);
  const words = wordsOf(dimension);
  return (
    <span
      class="note"
      role="spinbutton"
      tabIndex={0}
      data-path={dimension.path}
      data-origin={origin?.origin}
      aria-label={dimension.says}
      aria-valuenow={spokenValue(dimension)}
      aria-valuetext={`${words}, ${originWords(origin)}`}
      aria-describedby="dimension-keys"
      onClick={() => {
        editing.value = dimension.path;
      }}
      onKeyDown={(event) => dimensionKey(dimension, event)}
    >
      {words}
    </span>
  );
}
