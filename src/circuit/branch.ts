/** The five ways in which the bridge can stand, and what each puts across the load. */
import type { BurstNetwork } from "./network.ts";

export const ways = ["upperSwitch", "upperDiode", "lowerSwitch", "lowerDiode", "blocked"] as const;
/** Which path the primary current takes. `blocked`: none, the load's end floats. */
export type Way = (typeof ways)[number];

/**
 * One way, as a source behind a resistance: u = upper·v_u + lower·v_l + offset − resistance·i, and by the same two numbers the
 * bus capacitors lose charge, C_b·v_u′ = −upper·i, C_b·v_l′ = −lower·i.
 */
export interface Branch {
  readonly way: Way;
  /** Sign that the current has in it; 0 where it is blocked. */
  readonly sign: 1 | -1 | 0;
  readonly upper: number;
  readonly lower: number;
  /** [V] */
  readonly offset: number;
  /** [Ω] switches or diodes in the path, with the bus capacitors' resistance, without the primary's own. */
  readonly resistance: number;
  /** What the semiconductors of the path burn: drop·|i| + slope·i². [V], [Ω] */
  readonly drop: number;
  readonly slope: number;
  /** [Ω] of the bus capacitors in the path. */
  readonly busResistance: number;
}

/**
 * The branches of a bridge, by way. A half bridge has one switch or diode and one bus capacitor in the path, a full bridge two.
 * @source Kirchhoff's voltage law round the path; drops as in `SwitchDrop`
 */
export function branchesOf(network: BurstNetwork): Readonly<Record<Way, Branch>> {
  const half = network.bridge === "half";
  const n = half ? 1 : 2;
  const { vce0, rce, diode } = network.switch;
  const busResistance = n * network.bus.resistanceEach;
  const path = (way: Way, sign: 1 | -1, fromUpper: boolean, drop: number, slope: number): Branch => ({
    way,
    sign,
    upper: fromUpper ? 1 : half ? 0 : -1,
    lower: fromUpper ? (half ? 0 : 1) : -1,
    offset: -sign * n * drop,
    resistance: n * slope + busResistance,
    drop: n * drop,
    slope: n * slope,
    busResistance,
  });
  return {
    upperSwitch: path("upperSwitch", 1, true, vce0, rce),
    upperDiode: path("upperDiode", -1, true, diode.vf0, diode.rd),
    lowerSwitch: path("lowerSwitch", -1, false, vce0, rce),
    lowerDiode: path("lowerDiode", 1, false, diode.vf0, diode.rd),
    blocked: {
      way: "blocked",
      sign: 0,
      upper: 0,
      lower: 0,
      offset: 0,
      resistance: 0,
      drop: 0,
      slope: 0,
      busResistance: 0,
    },
  };
}

/** The way that a current of the given sign takes with these gates: through a switch that is on, else through the other side's diode. */
export function wayOf(sign: 1 | -1, gates: { readonly upper: boolean; readonly lower: boolean }): Way {
  if (sign > 0) return gates.upper ? "upperSwitch" : "lowerDiode";
  return gates.lower ? "lowerSwitch" : "upperDiode";
}
