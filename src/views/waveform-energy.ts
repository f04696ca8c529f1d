/** What the bus has given up to a time, and who has had it: parts that add up to the whole. */
import type { EnergyPart, Waveforms } from "../workbench/burst-contract.ts";
import type { Scale } from "./plots.ts";
import { firstNotBefore, type Span, sampleAt, tenths } from "./waveform-reduce.ts";

export type SpentPart = Exclude<EnergyPart, "drawn" | "returned">;

/** From the bottom of the stack to its top. */
export const spentParts: readonly { readonly part: SpentPart; readonly name: string }[] = [
  { part: "streamer", name: "streamer" },
  { part: "secondary", name: "secondary" },
  { part: "primary", name: "primary" },
  { part: "tank", name: "tank capacitor" },
  { part: "switches", name: "switches" },
  { part: "diodes", name: "diodes" },
  { part: "bus", name: "bus" },
  { part: "stored", name: "still stored" },
];

export interface EnergyAt {
  /** All [J]. */
  readonly drawn: number;
  readonly returned: number;
  /** Drawn less returned: what the parts add up to. */
  readonly given: number;
  readonly parts: readonly {
    readonly part: SpentPart;
    readonly name: string;
    readonly energy: number;
    /** Of what was given; 0 where nothing was. */
    readonly share: number;
  }[];
}

/** The ledger at a time. */
export function energyAt({ time, energy }: Pick<Waveforms, "time" | "energy">, at: number): EnergyAt {
  const read = (part: EnergyPart) => sampleAt(time, energy[part], at);
  const drawn = read("drawn");
  const returned = read("returned");
  const given = drawn - returned;
  return {
    drawn,
    returned,
    given,
    parts: spentParts.map(({ part, name }) => {
      const value = read(part);
      return { part, name, energy: value, share: given > 0 ? value / given : 0 };
    }),
  };
}

/** Greatest height of the stack over the whole burst [J]. */
export function greatestStack({ time, energy }: Pick<Waveforms, "time" | "energy">): number {
  let most = 0;
  for (let n = 0; n < time.length; n++) {
    let sum = 0;
    for (const { part } of spentParts) sum += Math.max(0, energy[part][n] ?? 0);
    most = Math.max(most, sum);
  }
  return most;
}

/** The stack changes little from sample to sample: so many points along it are enough. */
const mostPoints = 240;

/** The stack over a span of time: an SVG path for every part, bottom first. What is stored may swing below zero by a little; it is drawn from zero. */
export function energyStack({
  waves: { time, energy },
  span,
  x,
  y,
}: {
  readonly waves: Pick<Waveforms, "time" | "energy">;
  readonly span: Span;
  readonly x: Scale;
  readonly y: Scale;
}): { readonly part: SpentPart; readonly path: string }[] {
  const first = firstNotBefore(time, span.from);
  const end = firstNotBefore(time, span.to);
  const stride = Math.max(1, Math.ceil((end - first) / mostPoints));
  const at: number[] = [span.from];
  for (let n = first; n < end; n += stride) at.push(time[n] ?? 0);
  at.push(span.to);
  const pages = at.map((each) => tenths(x.toPage(each)));
  let below = at.map(() => 0);
  return spentParts.map(({ part }) => {
    const above = below.map((base, n) => base + Math.max(0, sampleAt(time, energy[part], at[n] ?? 0)));
    const edge = (levels: readonly number[]) => levels.map((level, n) => `${pages[n]} ${tenths(y.toPage(level))}`);
    const path = `M${edge(above).join("L")}L${edge(below).reverse().join("L")}Z`;
    below = above;
    return { part, path };
  });
}
