/** The circuit diagram of the driver. Every part can be pressed, and carries how near it comes to its limit. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Coil } from "../../description/coil.ts";
import { schematic } from "../../views/schematic.ts";
import type { PartBox } from "../../views/schematic-data.ts";
import { limitWords, partOfFinding, type Stress, stressWord } from "../../views/schematic-stress.ts";
import { SeenOnly } from "../drawing/seen-only.tsx";
import { CurrentFlow } from "./current-flow.tsx";
import { chosen } from "./driver-state.ts";

interface Properties {
  readonly coil: Coil;
  readonly stresses: readonly Stress[];
  readonly findings: readonly Finding[];
}

const percent = (share: number) => `${Math.round(share * 100)} %`;

function spoken({ name, inFile }: PartBox, stress: Stress | undefined, count: number, isGreatest: boolean): string {
  return [
    inFile ? name : `${name}, not in the file`,
    stress && `${percent(stress.share)}, ${limitWords(stress)}: ${stress.text}, ${stress.says}`,
    isGreatest ? "the part under most stress" : undefined,
    count > 0 ? `${count} ${count === 1 ? "finding" : "findings"}` : undefined,
  ]
    .filter((part) => part !== undefined)
    .join("; ");
}

interface PartProperties {
  readonly box: PartBox;
  readonly stress: Stress | undefined;
  readonly count: number;
  readonly isGreatest: boolean;
}

function Part({ box, stress, count, isGreatest }: PartProperties) {
  const { part, x, y, width, height, inFile } = box;
  const press = () => {
    chosen.value = part;
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand in a drawing
    <g
      class="part"
      role="button"
      tabindex={0}
      data-part={part}
      data-absent={!inFile || undefined}
      data-stress={stress && stressWord(stress)}
      data-greatest={isGreatest || undefined}
      aria-pressed={chosen.value === part}
      aria-label={spoken(box, stress, count, isGreatest)}
      onClick={press}
      onKeyDown={(event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        press();
      }}
    >
      <rect class="press" x={x} y={y} width={width} height={height} rx="3" />
    </g>
  );
}

/** Bar and number of a part's stress, and how many findings are about it: seen, and said by the part itself. */
function Gauge({ box, stress, count, isGreatest }: PartProperties) {
  const { x, y, width, height } = box;
  const gauge = Math.min(width - 8, 56);
  const middle = box.gauge ?? { x: x + width / 2, y: y + height - 4 };
  const left = middle.x - gauge / 2;
  const floor = middle.y + 4;
  return (
    <g data-stress={stress && stressWord(stress)}>
      {stress && (
        <>
          <rect class="gauge" x={left} y={floor - 7} width={gauge} height="7" />
          <rect class="reach" x={left} y={floor - 7} width={gauge * Math.min(1, stress.share)} height="7" />
          <text class="share-text" x={left + gauge / 2} y={floor + 12} text-anchor="middle">
            {percent(stress.share)}
            {stress.share > 0.8 ? ` ${stressWord(stress)}` : isGreatest ? " most" : ""}
          </text>
        </>
      )}
      {count > 0 && (
        <>
          <circle class="tally" cx={x + width - 3} cy={y + 3} r="9" />
          <text class="tally-text" x={x + width - 3} y={y + 7} text-anchor="middle">
            {count}
          </text>
        </>
      )}
    </g>
  );
}

/** The greatest stress of each part. */
export function greatestStress(stresses: readonly Stress[]): ReadonlyMap<Stress["part"], Stress> {
  const greatest = new Map<Stress["part"], Stress>();
  for (const stress of stresses) {
    if (stress.share > (greatest.get(stress.part)?.share ?? Number.NEGATIVE_INFINITY))
      greatest.set(stress.part, stress);
  }
  return greatest;
}

/** The part nearest to a rating of its own, or furthest beyond it. */
export const mostStressed = (stresses: readonly Stress[]) =>
  stresses
    .filter(({ kind }) => kind === "rating")
    .reduce<Stress | undefined>((most, one) => (most === undefined || one.share > most.share ? one : most), undefined);

export function SchematicView({ coil, stresses, findings }: Properties) {
  const { width, height, top, wires, symbols, dots, texts, boxes } = schematic(coil);
  const greatest = greatestStress(stresses);
  const most = mostStressed(stresses)?.part;
  const absent = new Set(boxes.filter(({ inFile }) => !inFile).map(({ part }) => part));
  const parts = boxes.map((box) => ({
    box,
    stress: greatest.get(box.part),
    count: findings.filter((finding) => partOfFinding(finding) === box.part).length,
    isGreatest: box.part === most,
  }));
  const isAbsent = (part: PartBox["part"] | undefined) => (part !== undefined && absent.has(part) ? true : undefined);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on a small screen it scrolls sideways, by keys too
    <section class="schematic-scroll" aria-label="Circuit diagram of the driver" tabIndex={0}>
      {/* biome-ignore lint/a11y/noSvgWithoutTitle: the section around it has the name */}
      <svg class="schematic" viewBox={`0 ${top} ${width} ${height}`}>
        <SeenOnly>
          {wires.map((path) => (
            <path key={path} class="wire" d={path} />
          ))}
          <CurrentFlow kind={coil.bridge?.kind ?? "half"} />
          {symbols.map(({ part, path }) => (
            <path key={path} class="symbol" data-absent={isAbsent(part)} d={path} />
          ))}
          {dots.map(({ x, y }) => (
            <circle key={`${x} ${y}`} class="dot" cx={x} cy={y} r="3" />
          ))}
          {texts.map(({ x, y, text, anchor, role, part }) => (
            <text
              key={`${x} ${y} ${text}`}
              class={`word ${role}`}
              x={x}
              y={y}
              text-anchor={anchor}
              data-absent={isAbsent(part)}
            >
              {text}
            </text>
          ))}
        </SeenOnly>
        {parts.map((part) => (
          <Part key={part.box.part} {...part} />
        ))}
        <SeenOnly class="gauges">
          {parts.map((part) => (
            <Gauge key={part.box.part} {...part} />
          ))}
        </SeenOnly>
      </svg>
    </section>
  );
}
