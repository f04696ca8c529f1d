/** The drawing itself: outlines to scale, painted layers, dimensions, grips, border. */
import { useState } from "preact/hooks";
import type { Provenances } from "../../description/provenance.ts";
import type { Dimension, Drawing } from "../../views/drawing.ts";
import type { LayoutStyle, PageBox, PagePoint, PlacedDimension } from "../../views/drawing-layout.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";
import type { CameraHolder } from "./camera.ts";
import { cameraKey } from "./camera-keys.ts";
import { DimensionMark } from "./dimension-mark.tsx";
import { GripHandle } from "./grip-handle.tsx";
import { Hatching } from "./hatching.tsx";
import { LayersAbove, LayersBelow } from "./painted-layers.tsx";
import { ScaleBar } from "./scale-bar.tsx";
import { Shapes } from "./shapes.tsx";
import { SheetFrame } from "./sheet-frame.tsx";
import { summaryOf } from "./summary.ts";
import { usePointerCamera } from "./use-pointer-camera.ts";
import { WindingWires } from "./winding-wires.tsx";

interface Properties {
  readonly holder: CameraHolder;
  readonly drawing: Drawing;
  readonly projection: Projection;
  readonly style: LayoutStyle;
  readonly placed: readonly PlacedDimension[];
  /** Dimensions whose grips are shown, whether or not their words have a place. */
  readonly gripped: readonly Dimension[];
  readonly provenances: Provenances | undefined;
}

const boxAround = ({ x, y }: PagePoint): PageBox => ({ x: x - 7, y: y - 7, width: 14, height: 14 });

export function SheetDrawing({ holder, drawing, projection, style, placed, gripped, provenances }: Properties) {
  const [focused, setFocused] = useState<string | undefined>(undefined);
  const page = { width: style.width, height: style.height };
  const { setSvg, ...onPointer } = usePointerCamera(holder, page);
  const grips = gripped.flatMap((dimension) => (dimension.grip ? [{ dimension, grip: dimension.grip }] : []));
  const taken = [...placed.map(({ box }) => box), ...grips.map(({ grip }) => boxAround(toPage(grip.at, projection)))];
  return (
    // biome-ignore lint/a11y/useSemanticElements: no other element groups the parts of a drawing
    <svg
      ref={setSvg}
      {...page}
      role="group"
      tabindex={0}
      aria-label="Drawing of the coil"
      aria-describedby="drawing-summary"
      data-fit={holder.fit.value}
      {...onPointer}
      onKeyDown={(event) => {
        if (event.ctrlKey || event.metaKey || event.altKey || event.target !== event.currentTarget) return;
        if (cameraKey(holder, event.key, drawing, style)) event.preventDefault();
      }}
    >
      <desc id="drawing-summary">
        {`${summaryOf(drawing)} Plus and minus zoom, arrows pan, C fits the coil, R the room.`}
      </desc>
      <LayersBelow projection={projection} />
      <Hatching shapes={drawing.shapes} projection={projection} page={page} />
      <Shapes shapes={drawing.shapes} projection={projection} />
      <WindingWires winding={drawing.winding} projection={projection} size={page} />
      <LayersAbove drawing={drawing} page={{ projection, page, taken, character: 6.7 }} />
      {placed.map((one) => (
        <DimensionMark
          key={one.dimension.path}
          placed={one}
          provenance={provenances?.get(one.dimension.path)}
          onFocus={setFocused}
        />
      ))}
      {grips.map((one) => (
        <GripHandle key={one.dimension.path} {...one} projection={projection} held={focused === one.dimension.path} />
      ))}
      <SheetFrame {...page} />
      <ScaleBar scale={projection.scale} size={page} />
    </svg>
  );
}
