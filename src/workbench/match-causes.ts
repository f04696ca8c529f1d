/** What may explain a difference between drawing and bench: one cause each, with its own freedom and nothing else wrong. */
import type { Coil } from "../description/coil.ts";
import type { Observed } from "../matching/fit/observed.ts";
import { numberAt, withNumber } from "./coil-path.ts";
import type { ExplanationId } from "./match-contract.ts";
import {
  capacitorAct,
  type Drawn,
  delayAct,
  leadInductanceAct,
  noSlopes,
  type Parameter,
  slopesOf,
  topHeight,
} from "./match-parameters.ts";
import type { Point } from "./match-point.ts";

/** A size that may be anything, about what is drawn. */
export interface SizeCause {
  readonly kind: "size";
  readonly id: ExplanationId;
  /** Ways in which a fault of this id can be, each as likely as the others; 1 where absent. */
  readonly ways?: number;
  readonly parameter: Parameter;
  /** What else is open once this is the fault. */
  readonly also?: readonly Parameter[];
  /** The side on which it can be at all. */
  readonly side: "both" | "above" | "below";
  says(value: number): string;
  readonly check: string;
}

/** Something that is or is not. */
export interface SwitchCause {
  readonly kind: "switch";
  readonly id: ExplanationId;
  readonly ways?: number;
  /** The coil as it would then be; solved again where given. */
  readonly coil?: Coil;
  readonly act?: (point: Point) => void;
  readonly value: number;
  readonly unit: string;
  readonly says: string;
  readonly check: string;
}

export type Cause = SizeCause | SwitchCause;

/** Standard deviation of a fault, where there is one. This project's own judgement, docs/bench.md. */
const fault = {
  capacitor: 0.1,
  topHeight: 25e-3,
  couplingHeight: 20e-3,
  /** Part of the capacitance of mode 1. */
  near: 0.05,
  shorted: 0.04,
  /** Of the logarithm of a shorted turn's loss: one turn or a band, a good joint or a burnt one. */
  shortedLoss: 0.7,
  dissipation: 0.01,
  leads: 0.3e-6,
  secondaryLoss: 0.7,
  secondaryTurns: 0.012,
  delay: 400e-9,
};

/**
 * 2·ln of how much more often a cause is met than the others. Common practice, no source: people lean in, winders count, and a ring is looked at.
 */
export const odds: Partial<Readonly<Record<ExplanationId, number>>> = {
  "person-near": 2,
  "secondary-turns": -2,
  "tank-leads": -1,
  "feedback-timing": -1,
  "bus-halved": -3,
  "strike-ring-closed": -2,
};

const per = (part: number, digits = 2): string => `${Number((100 * Math.abs(part)).toPrecision(digits))} %`;
const sized = (value: number, unit: number, name: string, digits = 2): string =>
  `${Number((Math.abs(value) / unit).toPrecision(digits))} ${name}`;

/** @param observed  the records: something near may have stood there in one of them alone */
export function causesOf(drawn: Drawn, observed: readonly Observed[]): readonly Cause[] {
  const { solution } = drawn;
  const { coil } = solution;
  return [
    ...tankCauses(drawn),
    ...primaryCauses(drawn),
    ...topCauses(drawn),
    ...nearCauses(drawn, observed),
    ...secondaryCauses(drawn),
    ...(coil.bridge && coil.feedback ? driveCauses(coil) : []),
  ];
}

function tankCauses({ solution: { coil } }: Drawn): readonly Cause[] {
  const { tank } = coil;
  if (!tank) return [];
  const { each, dissipation = 0 } = tank.bank;
  return [
    {
      kind: "size",
      id: "tank-capacitor",
      side: "both",
      parameter: plain("tank.bank.each", {
        drawn: each,
        sigma: fault.capacitor * each,
        unit: "F",
        act: capacitorAct(each),
      }),
      says: (value) => `tank capacitor ${per(value / each - 1)} ${value < each ? "low" : "high"}`,
      check:
        "with the bus discharged and shorted, measure the bank with a capacitance meter; look for a capacitor that is open, shorted or of another value",
    },
    {
      kind: "size",
      id: "lossy-capacitor",
      side: "above",
      parameter: plain("tank.bank.dissipation", {
        drawn: dissipation,
        sigma: fault.dissipation,
        unit: "1",
        act: (point, change) => {
          point.dissipation = Math.max(0, point.dissipation + change);
        },
      }),
      says: (value) => `lossy capacitor, dissipation ${Number(value.toPrecision(2))}, or a bad joint in the tank`,
      check:
        "with the bus discharged and shorted, look for a capacitor or a joint that a short run has warmed; clean and tighten every joint of the tank",
    },
    {
      kind: "size",
      id: "tank-leads",
      side: "both",
      parameter: plain("tank.leads.inductance", {
        drawn: tank.leads.inductance,
        sigma: fault.leads,
        unit: "H",
        act: leadInductanceAct,
      }),
      says: (value) =>
        `leads of the tank ${sized(value - tank.leads.inductance, 1e-9, "nH", 3)} ${value < tank.leads.inductance ? "below" : "above"} what is drawn`,
      check: "measure the loop that the leads make between bridge, bank and primary; lead them close together",
    },
  ];
}

function primaryCauses(drawn: Drawn): readonly Cause[] {
  const { coil } = drawn.solution;
  const { primary } = coil;
  if (!primary) return [];
  const { tap, turns, baseHeight, strikeRing } = primary;
  const moved = (by: number): boolean => tap + by > 0.5 && tap + by <= turns;
  const tapped = (id: ExplanationId, by: number, what: string): SwitchCause[] =>
    moved(by)
      ? [
          {
            kind: "switch",
            id,
            coil: withNumber(coil, "primary.tap", tap + by),
            value: tap + by,
            unit: "1",
            ways: moved(-by) ? 2 : 1,
            says: `${what}: ${Number((tap + by).toPrecision(4))} in circuit, ${Number(tap.toPrecision(4))} drawn`,
            check:
              "count the turns from the inner end to the tap, along the conductor; then move the tap or correct the file",
          },
        ]
      : [];
  const height: Parameter = {
    ...plain("primary.baseHeight", { drawn: baseHeight, sigma: fault.couplingHeight, unit: "m" }),
    logSlopes: slopesOf("primary.baseHeight", drawn),
  };
  return [
    ...tapped("tap-half-turn", -0.5, "tap half a turn short"),
    ...tapped("tap-half-turn", 0.5, "tap half a turn too far"),
    ...tapped("primary-turn", -1, "one turn of the primary short"),
    ...tapped("primary-turn", 1, "one turn of the primary too many"),
    {
      kind: "size",
      id: "coupling-height",
      side: "both",
      parameter: height,
      says: (value) =>
        `${value < baseHeight ? "looser" : "tighter"} coupling: primary ${sized(value - baseHeight, 1e-3, "mm")} ${value < baseHeight ? "lower" : "higher"} against the secondary than drawn`,
      check: "measure both base heights from the same plane; see that the secondary stands right down on its seat",
    },
    ...(strikeRing && !strikeRing.closed
      ? [
          {
            kind: "switch" as const,
            id: "strike-ring-closed" as const,
            coil: { ...coil, primary: { ...primary, strikeRing: { ...strikeRing, closed: true } } },
            value: 1,
            unit: "1",
            says: "strike ring closed on itself: a shorted turn",
            check: "look for the gap in the strike ring, and for a clamp or a bolt that bridges it",
          },
        ]
      : []),
  ];
}

function topCauses(drawn: Drawn): readonly Cause[] {
  const top = topHeight(drawn);
  return [
    ...(top
      ? [
          {
            kind: "size" as const,
            id: "top-load-height" as const,
            side: "both" as const,
            parameter: { ...top, sigma: fault.topHeight },
            says: (value: number) =>
              `top load ${sized(value - top.drawn, 1e-3, "mm")} ${value < top.drawn ? "low" : "high"}`,
            check: "measure from the last turn to the middle of the top load; see that it sits level and on its stop",
          },
        ]
      : []),
  ];
}

/** In every record, and where there are several, in each that is not said to have something near. */
function nearCauses({ solution }: Drawn, observed: readonly Observed[]): readonly Cause[] {
  const energyCapacitance = solution.figures.get("secondary.energyCapacitance")!.value;
  const alone = observed.length > 1 ? observed.flatMap(({ state }, n) => (state === "near" ? [] : [n])) : [];
  return [undefined, ...alone].map(
    (only): SizeCause => ({
      kind: "size",
      id: "person-near",
      side: "above",
      ways: 1 + alone.length,
      parameter: plain("top.added", {
        drawn: 0,
        sigma: fault.near * energyCapacitance,
        unit: "F",
        act: ({ records }, change) => {
          records.forEach((record, n) => {
            if (only === undefined || n === only) record.added += Math.max(-mostOff * energyCapacitance, change);
          });
        },
      }),
      says: (value) =>
        `somebody or something near that the drawing does not have, ${sized(value, 1e-12, "pF")} to the top${only === undefined ? "" : ` in ${observed[only]!.record}`}`,
      check: "clear the room about the top load, stand back, and take the record again; or draw what has to stay",
    }),
  );
}

function secondaryCauses(drawn: Drawn): readonly Cause[] {
  const { coil, figures } = drawn.solution;
  const turns = coil.secondary.turns;
  const slopes = slopesOf("secondary.turns", drawn);
  const lag = shortedTurnLag(coil, figures.get("secondary.f1")?.value ?? 0);
  return [
    {
      kind: "size",
      id: "shorted-turn",
      side: "above",
      parameter: plain("secondary.shorted", {
        drawn: 0,
        sigma: fault.shorted,
        unit: "1",
        act: (point, change) => shortTurn(point, Math.max(-mostOff, change), lag),
      }),
      also: [
        plain("shorted.loss", {
          drawn: 0,
          sigma: fault.shortedLoss,
          unit: "1",
          act: (point, change) => {
            point.shortedLoss *= Math.exp(change);
          },
        }),
      ],
      says: (value) => `shorted turn: the secondary ${per(value)} low in inductance, its Q far down`,
      check:
        "look for scratched enamel, a turn across others, carbon tracks; a metal band or screw through the former does the same",
    },
    {
      kind: "size",
      id: "lossy-secondary",
      side: "below",
      parameter: plain("secondary.loss", {
        drawn: 0,
        sigma: fault.secondaryLoss,
        unit: "1",
        act: (point, change) => {
          point.shape["secondary.qUnloaded"] *= Math.exp(change);
        },
      }),
      says: (value) => `lossy secondary: Q ${per(1 - Math.exp(value))} lower`,
      check:
        "look for damp, dust or a wet coating on the former, a poor earth at the base, or a lossy thing near the top",
    },
    ...(slopes.size > 0
      ? [
          {
            kind: "size" as const,
            id: "secondary-turns" as const,
            side: "both" as const,
            parameter: {
              ...plain("secondary.turns", { drawn: turns, sigma: fault.secondaryTurns * turns, unit: "1" }),
              logSlopes: slopes,
            },
            says: (value: number) =>
              `secondary ${Math.max(1, Math.round(Math.abs(value - turns)))} turns ${value < turns ? "short" : "over"}`,
            check: "count the turns along a ruler: turns in 50 mm at three places; or weigh the wire that was left",
          },
        ]
      : []),
  ];
}

function driveCauses({ feedback }: Coil): readonly Cause[] {
  const delay = feedback?.delay ?? 0;
  return [
    {
      kind: "switch",
      id: "sense-reversed",
      act: (point) => {
        point.reversed = true;
      },
      value: 1,
      unit: "1",
      says: "sense reversed: the current transformer's leads are the other way round",
      check:
        "swap the two leads of the sense transformer, at low bus behind a lamp, and look whether the current rises from half-cycle to half-cycle",
    },
    busCause("bus-doubled", 2, "bus doubled: twice the voltage that was taken for it"),
    busCause("bus-halved", 0.5, "bus halved: half the voltage that was taken for it"),
    {
      kind: "size",
      id: "feedback-timing",
      side: "both",
      parameter: plain("feedback.delay", { drawn: delay, sigma: fault.delay, unit: "s", act: delayAct }),
      says: (value) => `feedback ${sized(value - delay, 1e-9, "ns", 3)} ${value < delay ? "early" : "late"}`,
      check: "with no bus, compare the comparator's input with the gates; set the lead again",
    },
  ];
}

const busCause = (id: "bus-doubled" | "bus-halved", factor: number, says: string): SwitchCause => ({
  kind: "switch",
  id,
  act: (point) => {
    point.busFactor *= factor;
  },
  value: factor,
  unit: "1",
  says,
  check:
    "measure the bus with a meter rated for it; look at the rectifier's jumper (bridge or doubler) and at the probe's setting (1:1, 10:1)",
});

/** A fit passes through the side on which a fault cannot be, as far as these parts: what it costs there is not nothing. */
const [mostOff, leastLoss] = [0.3, 0.2];

/** How much of a shorted turn's reaction is loss: R/(ωL) of one turn of the secondary's wire. From memory. */
function shortedTurnLag({ secondary }: Coil, f1: number): number {
  const radius = secondary.former.outerDiameter / 2;
  const { bare } = secondary.wire;
  const inductance = 4e-7 * Math.PI * radius * (Math.log((16 * radius) / bare) - 2);
  const resistance = (2 * Math.PI * radius * 1.72e-8) / ((Math.PI * bare ** 2) / 4);
  return f1 > 0 ? resistance / (2 * Math.PI * f1 * inductance) : 0;
}

/** A closed turn takes a part of the inductance, and turns some of it into loss. */
function shortTurn(point: Point, part: number, lag: number): void {
  const { shape } = point;
  const left = Math.max(0.2, 1 - part);
  shape["secondary.inductance"] *= left;
  shape["secondary.energyInductance"] *= left;
  shape["secondary.f1"] /= Math.sqrt(left);
  const loss = 1 / shape["secondary.qUnloaded"];
  shape["secondary.qUnloaded"] = 1 / Math.max(leastLoss * loss, loss + (lag * point.shortedLoss * part) / left);
}

function plain(
  id: string,
  parts: { drawn: number; sigma: number; unit: string; act?: (point: Point, change: number) => void },
): Parameter {
  const isPath = /^(tank|primary|secondary\.turns|feedback)/.test(id);
  return { id, says: id, paths: isPath ? [id] : [], logSlopes: noSlopes, ...parts };
}

/** The number that a cause moves, for `withNumber`; undefined for causes that the file has no number for. */
export function coilWithCause(coil: Coil, { paths, drawn }: Parameter, value: number): Coil {
  return paths.reduce((at, path) => {
    const now = numberAt(at, path);
    return now === undefined ? at : withNumber(at, path, now + value - drawn);
  }, coil);
}
