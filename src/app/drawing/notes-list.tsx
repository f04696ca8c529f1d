/** On a narrow page the notes of the drawing stand below it by part, each pressed to be typed over like those on leaders. */
import type { Dimension } from "../../views/drawing.ts";
import { NoteValue } from "./note-value.tsx";

const partOf = ({ says }: Dimension) => says.split(",")[0] ?? says;

export function NotesList({ dimensions }: { readonly dimensions: readonly Dimension[] }) {
  const parts = [...new Set(dimensions.map(partOf))];
  return (
    <dl class="notes-list" aria-label="Notes on the drawing">
      {parts.map((part) => (
        <div key={part}>
          <dt>{part}</dt>
          {dimensions
            .filter((dimension) => partOf(dimension) === part)
            .map((dimension) => (
              <dd key={dimension.path}>
                <NoteValue dimension={dimension} />
              </dd>
            ))}
        </div>
      ))}
    </dl>
  );
}
