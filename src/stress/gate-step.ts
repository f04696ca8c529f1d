/** How fast and how hard a gate is charged through its resistor and the leakage of its transformer. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Coulomb, Farad, Henry, Ohm, Ratio, Second, Volt } from "../units/si.ts";

export interface GateStep {
  /** Charge over swing, as if the gate were one capacitor. */
  readonly capacitance: Farad;
  readonly peakCurrent: Ampere;
  /** From 10 % to 90 % of the step. */
  readonly riseTime: Second;
  /** Over the step, as a part of it; 0 from damping 1 on. */
  readonly overshoot: Ratio;
}

/**
 * A step of the whole swing into R, L and C in series.
 *
 *   ω0 = 1/√(LC),  ζ = (R/2)·√(C/L)
 *
 * Without leakage the peak current is swing/R and the rise time ln 9·R·C.
 *
 * @param swing    [V] from off to on
 * @param charge   [C] of the gate over that swing
 * @throws OutOfDomain  a swing or charge that is not positive, or neither resistor nor leakage
 * @validity  an estimate: a gate's capacitance moves threefold with its voltage, the driver's own resistance and the switch's inner gate
 *            resistor are not in the file and slow it
 * @source    gate-step
 */
export function gateStep({
  swing,
  charge,
  resistor,
  leakage,
}: {
  swing: Volt;
  charge: Coulomb;
  resistor: Ohm;
  leakage: Henry;
}): GateStep {
  if (!(swing > 0 && charge > 0 && resistor >= 0 && leakage >= 0 && resistor + leakage > 0))
    throw new OutOfDomain("gateStep", "needs a positive swing and charge, and a resistor or a leakage");
  const capacitance = charge / swing;
  const omega = 1 / Math.sqrt(leakage * capacitance);
  const damping = (resistor / 2) * Math.sqrt(capacitance / leakage);
  // Where the inductance is next to nothing the double poles part too far for a difference of exponentials.
  if (!(leakage > 0) || damping > 1e3) {
    return { capacitance, peakCurrent: swing / resistor, riseTime: Math.log(9) * resistor * capacitance, overshoot: 0 };
  }
  const response = (x: number): { voltage: number; current: number } => stepResponse(x, damping);
  const at = (level: number): number => crossing((x) => response(x).voltage, level, damping);
  const currentPeak = peakAngle(damping);
  return {
    capacitance,
    peakCurrent: capacitance * swing * omega * response(currentPeak).current,
    riseTime: (at(0.9) - at(0.1)) / omega,
    overshoot: damping >= 1 ? 0 : Math.exp((-Math.PI * damping) / Math.sqrt(1 - damping * damping)),
  };
}

/**
 * The gate's voltage as a part of the step, a time after it.
 *
 * @throws OutOfDomain  as `gateStep`
 * @source gate-step
 */
export function gateStepAt(
  time: Second,
  { swing, charge, resistor, leakage }: { swing: Volt; charge: Coulomb; resistor: Ohm; leakage: Henry },
): Ratio {
  if (!(swing > 0 && charge > 0 && resistor >= 0 && leakage >= 0 && resistor + leakage > 0))
    throw new OutOfDomain("gateStepAt", "needs a positive swing and charge, and a resistor or a leakage");
  if (time <= 0) return 0;
  const capacitance = charge / swing;
  const damping = (resistor / 2) * Math.sqrt(capacitance / leakage);
  if (!(leakage > 0) || damping > 1e3) return 1 - Math.exp(-time / (resistor * capacitance));
  return stepResponse(time / Math.sqrt(leakage * capacitance), damping).voltage;
}

/** Voltage over the step and its slope against the angle x = ω0·t. */
function stepResponse(x: number, damping: number): { voltage: number; current: number } {
  const spread = damping * damping - 1;
  if (Math.abs(spread) < 1e-9) {
    const left = Math.exp(-x);
    return { voltage: 1 - (1 + x) * left, current: x * left };
  }
  const root = Math.sqrt(Math.abs(spread));
  if (spread < 0) {
    const left = Math.exp(-damping * x);
    return {
      voltage: 1 - left * (Math.cos(root * x) + (damping / root) * Math.sin(root * x)),
      current: (left * Math.sin(root * x)) / root,
    };
  }
  const fast = Math.exp(-(damping + root) * x);
  const slow = Math.exp(-x / (damping + root));
  return {
    voltage: 1 - ((damping + root) * slow - fast / (damping + root)) / (2 * root),
    current: (slow - fast) / (2 * root),
  };
}

function peakAngle(damping: number): number {
  const spread = damping * damping - 1;
  if (Math.abs(spread) < 1e-9) return 1;
  const root = Math.sqrt(Math.abs(spread));
  return spread < 0 ? Math.atan2(root, damping) / root : Math.log(damping + root) / root;
}

/** First angle at which the rising voltage reaches a level. */
function crossing(voltage: (x: number) => number, level: number, damping: number): number {
  let low = 0;
  // The first crest of an undamped step, or many time constants of a damped one.
  let high = damping < 1 ? Math.PI / Math.sqrt(1 - damping * damping) : 40 * (1 + damping);
  for (let n = 0; n < 60; n++) {
    const middle = (low + high) / 2;
    if (voltage(middle) < level) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
