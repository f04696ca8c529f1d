/** The drawing on its sheet: outlines to scale, layers, dimensions, grips, and the field that is open for typing. */
import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Dimension } from "../../views/drawing.ts";
import { drawing as draw } from "../../views/drawing.ts";
import { projectionOf } from "../../views/drawing-fit.ts";
import { layDimensions } from "../../views/drawing-layout.ts";
import type { Projection } from "../../views/drawing-path.ts";
import { drawable, stale } from "../state/document.ts";
import { editing, sought } from "../state/view.ts";
import { type CameraHolder, fitTo } from "./camera.ts";
import { cameraKey } from "./camera-keys.ts";
import { DimensionMark } from "./dimension-mark.tsx";
import { DrawingBar } from "./drawing-bar.tsx";
import { EmptySheet } from "./empty-sheet.tsx";
import { GripHandle } from "./grip-handle.tsx";
import { Hatching } from "./hatching.tsx";
import type { LayerPage } from "./layer-page.ts";
import { NotesList } from "./notes-list.tsx";
import { pageStyle } from "./page-style.ts";
import { LayersAbove, LayersBelow } from "./painted-layers.tsx";
import { ScaleBar } from "./scale-bar.tsx";
import { Shapes } from "./shapes.tsx";
import { SheetFrame } from "./sheet-frame.tsx";
import { summaryOf } from "./summary.ts";
import { usePointerCamera } from "./use-pointer-camera.ts";
import { useSize } from "./use-size.ts";
import { ValueField } from "./value-field.tsx";
import { WindingWires } from "./winding-wires.tsx";

interface Properties {
  readonly holder: CameraHolder;
  /** Which dimensions this sheet carries; all of them where absent. */
  readonly carries?: (dimension: Dimension) => boolean;
  /** Notes on leaders, where there is room. */
  readonly notes: boolean;
  /** Whether the painted layers can be switched here. */
  readonly layers: boolean;
  readonly children?: ComponentChildren;
}

const focusOn = (path: string) => document.querySelector<SVGElement>(`[data-path="${path}"]`)?.focus();

/** The dimension that a path of the file means: itself, or the first one inside or around it. */
const meant = (dimensions: readonly Dimension[], path: string) =>
  dimensions.find((one) => one.path === path) ?? dimensions.find((one) => one.path.startsWith(`${path}.`));

export function Sheet({ holder, carries = () => true, notes, layers, children }: Properties) {
  const { ref, size } = useSize<HTMLDivElement>();
  const [focused, setFocused] = useState<string | undefined>(undefined);
  const pointer = usePointerCamera(holder, size);
  const table = drawable.value;
  const whole = useMemo(() => table && draw(table.coil, table.file.provenances), [table]);
  const groups = holder.fit.value === "coil" ? (["coil"] as const) : (["coil", "room"] as const);
  const style = pageStyle(size, groups, notes);
  const camera = holder.camera.value;

  useEffect(() => {
    if (whole === undefined || size.width === 0) return;
    if (holder.fit.peek() !== "free" || holder.camera.peek() === undefined) {
      fitTo(holder, holder.fit.peek() === "room" ? "room" : "coil", whole, style);
    }
    // only a new page or a new coil by name fits again: a drawing that moves under the hand cannot be worked on
  }, [size.width, size.height, whole?.name]);

  useEffect(() => {
    const wanted = sought.value;
    if (wanted === undefined || whole === undefined) return;
    const dimension = meant(whole.dimensions.filter(carries), wanted.path);
    if (dimension === undefined) return;
    if (document.querySelector(`[data-path="${dimension.path}"]`) === null)
      fitTo(holder, dimension.group, whole, style);
    const timer = setTimeout(() => {
      focusOn(dimension.path);
      sought.value = undefined;
    });
    return () => clearTimeout(timer);
  }, [sought.value, whole]);

  if (whole === undefined) return <EmptySheet sheet={ref} />;
  const drawn = { ...whole, dimensions: whole.dimensions.filter(carries) };
  const projection = camera && projectionOf(camera, size);
  // from far away the coil's own dimensions would bury the coil
  const far =
    projection !== undefined &&
    holder.fit.value !== "coil" &&
    (whole.coilBox.top - whole.coilBox.bottom) * projection.scale < 190;
  const shownGroups = far ? (["room"] as const) : groups;
  const placed = projection
    ? layDimensions({ drawing: drawn, projection, style: { ...style, groups: shownGroups } })
    : [];
  const elsewhere = notes && style.notes === "elsewhere" ? drawn.dimensions.filter(({ kind }) => kind === "note") : [];
  const gripped = drawn.dimensions.filter(({ grip, group }) => grip && shownGroups.some((one) => one === group));
  const open = drawn.dimensions.find(({ path }) => path === editing.value);
  const openAt = placed.find(({ dimension }) => dimension === open)?.box;
  const provenances = table?.file.provenances;
  const layerPage = (on: Projection): LayerPage => ({
    projection: on,
    page: size,
    taken: placed.map(({ box }) => box),
    character: 6.7,
  });

  return (
    <div class="drawing">
      <DrawingBar holder={holder} drawing={drawn} style={style} layers={layers} />
      <div class="sheet" ref={ref} data-stale={stale.value || undefined}>
        {projection && (
          // biome-ignore lint/a11y/useSemanticElements: no other element groups the parts of a drawing
          <svg
            ref={pointer.setSvg}
            width={size.width}
            height={size.height}
            role="group"
            // biome-ignore lint/a11y/noNoninteractiveTabindex: it is zoomed and panned by keys
            tabindex={0}
            aria-label="Drawing of the coil"
            aria-describedby="drawing-summary"
            data-fit={holder.fit.value}
            onPointerDown={pointer.onPointerDown}
            onPointerMove={pointer.onPointerMove}
            onPointerUp={pointer.onPointerUp}
            onPointerCancel={pointer.onPointerCancel}
            onKeyDown={(event) => {
              if (event.ctrlKey || event.metaKey || event.altKey || event.target !== event.currentTarget) return;
              if (cameraKey(holder, event.key, drawn, style)) event.preventDefault();
            }}
          >
            <desc id="drawing-summary">{`${summaryOf(drawn)} Plus and minus zoom, arrows pan, C fits the coil, R the room.`}</desc>
            <LayersBelow projection={projection} />
            <Hatching shapes={drawn.shapes} projection={projection} page={size} />
            <Shapes shapes={drawn.shapes} projection={projection} />
            <WindingWires winding={drawn.winding} projection={projection} size={size} />
            <LayersAbove drawing={drawn} page={layerPage(projection)} />
            {placed.map((one) => (
              <DimensionMark
                key={one.dimension.path}
                placed={one}
                provenance={provenances?.get(one.dimension.path)}
                onFocus={setFocused}
              />
            ))}
            {gripped.map((dimension) =>
              dimension.grip === undefined ? null : (
                <GripHandle
                  key={dimension.path}
                  dimension={dimension}
                  grip={dimension.grip}
                  projection={projection}
                  held={focused === dimension.path}
                />
              ),
            )}
            <SheetFrame width={size.width} height={size.height} />
            <ScaleBar scale={projection.scale} size={size} />
          </svg>
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
      {elsewhere.length > 0 && <NotesList dimensions={elsewhere} />}
    </div>
  );
}
