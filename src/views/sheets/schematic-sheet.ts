/** The driver's circuit diagram with the values of the file. */
import { schematic } from "../schematic.ts";
import type { SchematicText } from "../schematic-data.ts";
import { framed } from "./frame.ts";
import { fitted, wrapped } from "./measure.ts";
import { circle, type Item, mapPoints, type Segment, weight } from "./page.ts";
import { formatOf } from "./paper.ts";
import type { Sheet } from "./sheet.ts";
import { segmentsOf } from "./svg-path.ts";

const mm = 1e-3;

const note =
  "Everything left of the bridge is live against earth while the mains are on, and for the time of the bleeders after. The diagram shows what the file knows: protective earth, interlock and fuse holder belong to it as well and stand in no file.";

export const schematicSheet: Sheet = {
  id: "schematic",
  title: "Circuit diagram",
  says: "supply, bridge, tank, sense and gate drive with their values",
  needs: [],
  lay: (subject, setting) => {
    const format = formatOf(setting.paper, { wide: true });
    const { body } = format;
    const drawn = schematic(subject.coil);
    const noteHeight = 10 * mm;
    const scale = Math.min(body.width / drawn.width, (body.height - noteHeight) / drawn.height);
    const left = body.x + (body.width - drawn.width * scale) / 2;
    const top = body.y + (body.height - noteHeight - drawn.height * scale) / 2;
    const place = ({ x, y }: { x: number; y: number }) => ({ x: left + x * scale, y: top + (y - drawn.top) * scale });
    const path = (text: string): readonly Segment[] => mapPoints(segmentsOf(text), place);
    const items: Item[] = [
      ...drawn.wires.map((text): Item => ({ kind: "path", segments: path(text), width: weight.line, tone: "ink" })),
      ...drawn.symbols.map(
        (symbol): Item => ({ kind: "path", segments: path(symbol.path), width: 0.35 * mm, tone: "ink" }),
      ),
      ...drawn.dots.map((at): Item => ({ kind: "path", segments: circle(place(at), 0.6 * mm), fill: "ink" })),
      ...drawn.texts.map((text) => word(text, { place, scale })),
      ...wrapped(note, { width: body.width, size: 2.6 * mm, face: "regular" }).map(
        (text, n): Item => ({
          kind: "text",
          text,
          x: body.x,
          y: body.y + body.height - noteHeight + (4 + n * 3.6) * mm,
          size: 2.6 * mm,
          face: "regular",
          tone: "stop",
          anchor: "start",
        }),
      ),
    ];
    return framed([items], { subject, setting, format, title: "Circuit diagram", scale: "–" });
  },
};

interface Placing {
  readonly place: (at: { x: number; y: number }) => { x: number; y: number };
  readonly scale: number;
}

/** Letters of the diagram, narrower than the columns that they stand in. */
function word({ x, y, text, anchor, role }: SchematicText, { place, scale }: Placing): Item {
  const face = role === "name" ? "bold" : "regular";
  const size = (role === "pin" ? 9.5 : 10.5) * scale;
  return {
    kind: "text",
    ...fitted(text, { width: 190 * scale, size, least: size * 0.6, face }),
    ...place({ x, y }),
    face,
    tone: role === "value" ? "soft" : "ink",
    anchor,
  };
}
