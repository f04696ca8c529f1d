/** The drawing on its sheet, with its bar above, the field that is open for typing, and its notes below where the page is narrow. */
import type { ComponentChildren } from "preact";
import { useMemo } from "preact/hooks";
import type { Dimension } from "../../views/drawing.ts";
import { drawing as draw } from "../../views/drawing.ts";
import { projectionOf } from "../../views/drawing-fit.ts";
import { layDimensions } from "../../views/drawing-layout.ts";
import { drawable, stale } from "../state/document.ts";
import { editing } from "../state/view.ts";
import type { CameraHolder } from "./camera.ts";
import { DrawingBar } from "./drawing-bar.tsx";
import { EmptySheet } from "./empty-sheet.tsx";
import { NotesList } from "./notes-list.tsx";
import { pageStyle } from "./page-style.ts";
import { SheetDrawing } from "./sheet-drawing.tsx";
import { shownGroups } from "./shown-groups.ts";
import { useFitting } from "./use-fitting.ts";
import { focusOn, useSeeking } from "./use-seeking.ts";
import { useSize } from "./use-size.ts";
import { ValueField } from "./value-field.tsx";

interface Properties {
  readonly holder: CameraHolder;
  /** Which dimensions this sheet carries; all of them where absent. A constant function. */
  readonly carries?: (dimension: Dimension) => boolean;
  /** Whether the painted layers can be switched here. */
  readonly layers: boolean;
  readonly children?: ComponentChildren;
}

const all = () => true;

export function Sheet({ holder, carries = all, layers, children }: Properties) {
  const { ref, size } = useSize<HTMLDivElement>();
  const table = drawable.value;
  const drawing = useMemo(() => {
    const whole = table && draw(table.coil, table.file.provenances);
    return whole && { ...whole, dimensions: whole.dimensions.filter(carries) };
  }, [table, carries]);
  const camera = holder.camera.value;
  const projection = camera && projectionOf(camera, size);
  const groups = drawing ? shownGroups(holder.fit.value, drawing, projection) : [];
  const style = pageStyle(size, groups);
  useFitting(holder, drawing, style);
  useSeeking(holder, drawing, style);

  if (drawing === undefined) return <EmptySheet sheet={ref} />;
  const { dimensions } = drawing;
  const placed = projection ? layDimensions({ drawing, projection, style }) : [];
  const notes = style.notes === "elsewhere" ? dimensions.filter(({ kind }) => kind === "note") : [];
  const open = dimensions.find(({ path }) => path === editing.value);
  const openAt = placed.find(({ dimension }) => dimension === open)?.box;
  return (
    <div class="drawing">
      <DrawingBar holder={holder} drawing={drawing} style={style} layers={layers} />
      <div class="sheet" ref={ref} data-stale={stale.value || undefined}>
        {projection && (
          <SheetDrawing
            holder={holder}
            drawing={drawing}
            projection={projection}
            style={style}
            placed={placed}
            gripped={dimensions.filter(({ group }) => groups.includes(group))}
            provenances={table?.file.provenances}
          />
        )}
        {open && (
          <ValueField
            key={open.path}
            dimension={open}
            left={Math.max(8, Math.min(openAt?.x ?? 8, size.width - 330))}
            top={Math.max(8, Math.min(openAt?.y ?? 8, size.height - 170))}
            onClosed={focusOn}
          />
        )}
        {stale.value && (
          <p class="stale-note">The text cannot be drawn as it stands. This is the last coil that could be.</p>
        )}
        {children}
      </div>
      {notes.length > 0 && <NotesList dimensions={notes} />}
    </div>
  );
}
