/** The four whole coils of test/reference/resonator-open-cases.json as coils of the program. */
import type { Coil, Conductor, TopLoad } from "../../src/description/coil.ts";
import reference from "../reference/resonator-open-cases.json" with { type: "json" };

interface Case {
  name: string;
  secondary: {
    formerOuterDiameter: number;
    wireDiameter: number;
    wireOverallDiameter: number;
    turns: number;
    length: number;
    baseHeight: number;
  };
  topload: ({ kind: string } & Record<string, number | string>)[];
  site?: {
    wall?: { radius: number; height: number };
    ceiling?: { height: number; radius: number };
    person?: { at: number; height: number; foot: number; radius: number };
  };
  primary: {
    angle: number;
    turns: number;
    firstTurnDiameter: number;
    pitch: number;
    baseHeight: number;
    conductor: { tube?: number; traceWidth?: number; traceThickness?: number };
    strikeRing?: { diameter: number; tube: number; height: number };
  };
  tank: { capacitance: number; leadInductance: number };
  expected: Record<string, number | number[]>;
}

export const cases = reference.cases as unknown as Case[];

export function coilOf({ name, secondary, topload, site, primary, tank }: Case): Coil {
  const { conductor, strikeRing, ...wound } = primary;
  const drawn: Conductor =
    conductor.tube === undefined
      ? { trace: { width: conductor.traceWidth!, thickness: conductor.traceThickness! } }
      : { tube: conductor.tube };
  return {
    coilwright: 1,
    name,
    site: {
      air: { temperature: 293.15, pressure: 101325, humidity: 0.5 },
      ...(site?.wall ? { wall: site.wall } : {}),
      ...(site?.ceiling ? { ceiling: site.ceiling } : {}),
      people: site?.person ? [site.person] : [],
      objects: [],
    },
    secondary: {
      former: { outerDiameter: secondary.formerOuterDiameter },
      wire: { bare: secondary.wireDiameter, overall: secondary.wireOverallDiameter },
      turns: secondary.turns,
      length: secondary.length,
      baseHeight: secondary.baseHeight,
    },
    topload: topload.map(({ kind, ...size }) => ({ [kind]: size }) as unknown as TopLoad),
    primary: {
      ...wound,
      angle: (primary.angle * Math.PI) / 180,
      tap: primary.turns,
      conductor: drawn,
      layers: { count: 1, gap: 0.0016, connected: "series" },
      ...(strikeRing ? { strikeRing: { ...strikeRing, earthed: true, closed: false } } : {}),
    },
    tank: {
      bank: { each: tank.capacitance, series: 1, parallel: 1 },
      leads: { inductance: tank.leadInductance, resistance: 0.005 },
    },
  };
}
