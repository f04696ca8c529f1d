/** What a pulse of a coil costs, from the burst solver: a table over on-time and bus, and how far it is off between its points. */
import type { Coil } from "../description/coil.ts";
import type { CostTable, PulseCosts } from "../programme/index.ts";
import type { Hertz, Joule, Ratio, Second, Volt } from "../units/si.ts";
import type { BurstSetting } from "./burst-contract.ts";
import { fullSetting } from "./burst-setting.ts";
import { study } from "./burst-stage.ts";
import type { Solution } from "./contract.ts";

export interface CostStudy {
  readonly costs: PulseCosts;
  /** The same with the least costs over the rates. */
  readonly least: PulseCosts;
  /** Greatest error of any cost half way between the points, in parts of that cost or of a tenth of the greatest. */
  readonly error: Ratio;
  /** Shortest on-time of the table from which on the top breaks out at the full bus; undefined where it never does. */
  readonly litFrom: Second | undefined;
}

type Costs = Readonly<Record<keyof PulseCosts, Joule>> & {
  readonly lit: boolean;
  readonly whole: boolean;
};
const kinds = ["drawn", "switchLoss", "bankLoss"] as const satisfies readonly (keyof PulseCosts)[];

/** Even on-times of the table; fewer where one burst alone has thousands of half-cycles, and two rates then in place of three. */
const usualPoints = 16;
const fewestPoints = 4;
const usualHalfCycles = 1500;
/** Of the full bus: where the power law is taken from, and where it is checked. */
const lowBus: Ratio = 0.7;
const checkBus: Ratio = 0.85;
/** A train so slow that no burst meets the channel of the one before. */
const slow: Hertz = 20;
/** Part of the greatest cost below which an error is measured against that part. */
const floor: Ratio = 0.1;

const known = new WeakMap<Solution, Map<string, CostStudy | undefined>>();

/**
 * Costs at even on-times up to the longest, at the full bus and at a lower one. At each point the greatest is taken of trains at a slow rate, at the
 * interrupter's setting and at its limit, since a streamer that the last burst has left loads the next one differently; the least of them is given
 * as well.
 *
 * @param longest, highest  limits of on-time and rate
 * @returns undefined where the file does not allow a burst, or the longest has more half-cycles than are followed
 * @validity  each pulse costs what it costs in a steady train of its own; a burst between unlike ones may cost less or more
 * @source    burst-simulation; checked against it half way between the points
 */
export function pulseCosts(
  coil: Coil,
  solution: Solution,
  { longest, highest, setting }: { longest: Second; highest: Hertz; setting: BurstSetting },
): CostStudy | undefined {
  const kept = known.get(solution) ?? new Map<string, CostStudy | undefined>();
  known.set(solution, kept);
  const key = JSON.stringify([longest, highest, setting]);
  if (!kept.has(key)) kept.set(key, computed(coil, solution, { longest, highest, setting }));
  return kept.get(key);
}

function computed(
  coil: Coil,
  solution: Solution,
  { longest, highest, setting }: { longest: Second; highest: Hertz; setting: BurstSetting },
): CostStudy | undefined {
  const full = fullSetting(coil, solution, setting).busVoltage;
  const rates = [...new Set([Math.min(slow, highest), Math.min(coil.interrupter?.rate ?? slow, highest), highest])];
  const at = (onTime: Second, bus: Ratio): readonly Costs[] =>
    rates.flatMap((rate) => costsOf(coil, solution, { ...setting, onTime, rate, busVoltage: bus * full }));
  const [last] = longest > 0 && full > 0 ? at(longest, 1) : [];
  // What a burst that is not followed to its end would cost is not known, and less is no bound.
  if (last === undefined || !last.whole) return undefined;
  // A tank far out of tune swings thousands of times in a burst, whether the bridge follows it or not.
  const fastest = Math.max(...["poles.upper", "tank.frequency"].map((id) => solution.figures.get(id)?.value ?? 0));
  const thinned = usualHalfCycles / (2 * fastest * longest);
  const points = Math.max(fewestPoints, Math.round(usualPoints * Math.min(1, thinned)));
  if (points < usualPoints) rates.splice(1, rates.length - 2);
  const step = longest / points;
  const row = (bus: Ratio) => Array.from({ length: points + 1 }, (_, n) => (n === 0 ? [] : at(n * step, bus)));
  const [atFull, atLow] = [row(1), row(lowBus)];
  const tables = (pick: "max" | "min"): PulseCosts => ({
    drawn: table("drawn", pick),
    switchLoss: table("switchLoss", pick),
    bankLoss: table("bankLoss", pick),
  });
  const costs = tables("max");
  let dark = points;
  while (dark > 0 && atFull[dark]!.every(({ lit }) => lit) && atFull[dark]!.length > 0) dark--;
  return {
    costs,
    least: tables("min"),
    error: errorOf(),
    litFrom: dark < points ? (dark + 1) * step : undefined,
  };

  function table(kind: keyof PulseCosts, pick: "max" | "min"): CostTable {
    const values = rising(atFull, kind, pick);
    const lower = rising(atLow, kind, pick);
    const exponents = values.map((value, n) =>
      value > 0 && lower[n]! > 0 ? Math.max(0, Math.log(lower[n]! / value) / Math.log(lowBus)) : 2,
    );
    exponents[0] = exponents[1] ?? 2;
    return { step, values, exponents };
  }

  function errorOf(): Ratio {
    let worst = 0;
    const check = (onTime: Second, bus: Ratio): void => {
      const solved = at(onTime, bus);
      for (const kind of kinds) {
        const { values, exponents } = costs[kind];
        const n = Math.min(points - 1, Math.floor(onTime / step));
        const share = onTime / step - n;
        const mix = (of: Float64Array): number => (1 - share) * of[n]! + share * of[n + 1]!;
        const found = mix(values) * bus ** mix(exponents);
        const true_ = Math.max(...solved.map((each) => each[kind]));
        const scale = Math.max(true_, floor * values.at(-1)!);
        if (scale > 0) worst = Math.max(worst, Math.abs(found - true_) / scale);
      }
    };
    for (let n = Math.min(2, points / 2); n < points; n += 2) check((n + 0.5) * step, 1);
    for (let n = 4; n <= points; n += 4) check(n * step, checkBus);
    return worst;
  }
}

/** Of the rates the greatest or the least, and nowhere less than at a shorter on-time. */
function rising(
  row: readonly (readonly Costs[])[],
  kind: keyof PulseCosts,
  pick: "max" | "min",
): Float64Array<ArrayBuffer> {
  let most = 0;
  return Float64Array.from(row, (each) => {
    if (each.length > 0) most = Math.max(most, Math[pick](...each.map((costs) => costs[kind])));
    return most;
  });
}

function costsOf(coil: Coil, solution: Solution, setting: BurstSetting & { rate: Hertz; busVoltage: Volt }): Costs[] {
  const { figures, breakoutTime, reached } = study(coil, solution, setting);
  const value = (id: string): number | undefined => figures.get(id)?.value;
  const drawn = value("burst.energyDrawn");
  if (drawn === undefined) return [];
  return [
    {
      drawn: Math.max(0, drawn - (value("burst.energyReturned") ?? 0)),
      switchLoss: value("switch.lossPerBurst") ?? 0,
      bankLoss: (value("bank.heatEach") ?? 0) / setting.rate,
      whole: reached === "endTime",
      lit: breakoutTime !== undefined,
    },
  ];
}
