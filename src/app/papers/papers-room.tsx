/** What do I take to the bench? Sheets at true size, and pictures to explain the coil with. */
import "./papers.css";
import { signal } from "@preact/signals";
import { PicturesPage } from "../pictures/pictures-page.tsx";
import { followPictures } from "../pictures/pictures-state.ts";
import { followPapers } from "./papers-state.ts";
import { SheetsPage } from "./sheets-page.tsx";

const parts = { sheets: "Sheets", pictures: "Teaching pictures" } as const;
const part = signal<keyof typeof parts>("sheets");

// The room's inside is fetched once: from here on it keeps up with the text.
followPapers();
followPictures();

export function PapersRoom() {
  return (
    <div class="room papers-room">
      <nav class="papers-bar" aria-label="Parts of this room">
        {Object.entries(parts).map(([id, name]) => (
          <button
            key={id}
            type="button"
            aria-pressed={part.value === id}
            onClick={() => {
              part.value = id as keyof typeof parts;
            }}
          >
            {name}
          </button>
        ))}
      </nav>
      <div class="papers-part" id="papers-part" tabIndex={-1}>
        {part.value === "sheets" ? <SheetsPage /> : <PicturesPage />}
      </div>
    </div>
  );
}
