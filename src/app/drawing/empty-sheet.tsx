/** A sheet before there is a coil to draw: says why, and where the text can be mended. */
import type { RefObject } from "preact";
import { text } from "../state/document.ts";
import { textShown } from "../state/view.ts";

export function EmptySheet({ sheet }: { readonly sheet: RefObject<HTMLDivElement | null> }) {
  return (
    <div class="drawing">
      <div class="drawing-bar" />
      <div class="sheet" ref={sheet}>
        {text.value !== "" && (
          <div class="cannot-draw">
            <p>This file cannot be drawn as it stands. The findings below say what is missing.</p>
            <button
              type="button"
              onClick={() => {
                textShown.value = true;
              }}
            >
              Open the text
            </button>
          </div>
        )}
      </div>
    </div>
  );
}
