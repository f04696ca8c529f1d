/** The heat of one switch with its diode over a burst, in stretches short enough for the fastest thermal term. */
import type { BurstResult } from "../burst/index.ts";
import type { SwitchDrop } from "../circuit/network.ts";
import type { HeatStretch } from "../stress/index.ts";
import type { Ampere, Joule, Ohm, Second, Volt } from "../units/si.ts";

/** What one switch loses at an instant. */
export interface HeatPulse {
  readonly time: Second;
  readonly energy: Joule;
}

export type Side = "upper" | "lower";

/** A half-cycle of the primary current, with the side whose switches it flows through; the diodes of the other side are in its way. */
interface Lobe {
  readonly from: Second;
  readonly to: Second;
  readonly peak: Ampere;
  readonly side: Side;
  readonly driven: boolean;
}

/** Parts of a half sine's area in its thirds. */
const thirds = [0.25, 0.5, 0.25] as const;
/** While the bridge is driven near the crossings a diode carries little of its half-cycle. */
const drivenDiodeShare = 0.1;

/**
 * Spreads known sums over the half-cycles of a burst: the conduction of all switches over those that are driven, the diodes' mostly over
 * the ring-down, each as a half sine of its peak would heat it; half-cycles of one sign heat one side. The energy of each change falls where
 * it falls.
 *
 * @param device             knees and slopes
 * @param conduction, diode  [J] in one burst, of one switch of each side together
 * @param pulses             what the switch of this side loses at its changes
 * @returns stretches from the start of the burst; both sides together hold conduction, diode and all pulses
 * @validity  sums of both sides exact; the split agrees with sampled waveforms to 1.5 % of the junction's rise for terms of 1 ms and more, to 6 %
 *            for terms of 10 µs (measured)
 * @source    burst-simulation
 */
export function heatOfSwitch({
  side,
  device,
  result,
  conduction,
  diode,
  pulses,
  period,
}: {
  side: Side;
  device: SwitchDrop;
  result: BurstResult;
  conduction: Joule;
  diode: Joule;
  pulses: readonly HeatPulse[];
  period: Second;
}): HeatStretch[] {
  const lobes = lobesOf(result, period);
  if (lobes.length === 0) {
    const energy = (conduction + diode) / 2 + pulses.reduce((sum, pulse) => sum + pulse.energy, 0);
    return energy > 0 ? [{ duration: Math.min(period, result.at), energy }] : [];
  }
  const { vce0, rce, diode: through } = device;
  const conducted = shareOf(lobes, (lobe) => (lobe.driven ? halfSineHeat(lobe, vce0, rce) : 0));
  const freewheeled = shareOf(
    lobes,
    (lobe) => halfSineHeat(lobe, through.vf0, through.rd) * (lobe.driven ? drivenDiodeShare : 1),
  );
  const last = lobes.length - 1;
  return lobes.flatMap((lobe, index) => {
    const energy = lobe.side === side ? conduction * conducted(lobe) : diode * freewheeled(lobe);
    const duration = (lobe.to - lobe.from) / thirds.length;
    return thirds.map((part, n) => {
      const from = index === 0 && n === 0 ? -1 : lobe.from + n * duration;
      const to = index === last && n === thirds.length - 1 ? Number.POSITIVE_INFINITY : lobe.from + (n + 1) * duration;
      const atChanges = pulses.reduce((sum, { time, energy: at }) => (time > from && time <= to ? sum + at : sum), 0);
      return { duration, energy: part * energy + atChanges };
    });
  });
}

/** Heat of a half sine through a knee and a slope. */
function halfSineHeat({ from, to, peak }: Lobe, knee: Volt, slope: Ohm): Joule {
  return (to - from) * peak * ((2 / Math.PI) * knee + 0.5 * slope * peak);
}

/** What part of the whole each half-cycle has; even parts where there is nothing to go by. */
function shareOf(lobes: readonly Lobe[], part: (lobe: Lobe) => number): (lobe: Lobe) => number {
  const whole = lobes.reduce((sum, lobe) => sum + part(lobe), 0);
  return (lobe) => (whole > 0 ? part(lobe) / whole : 1 / lobes.length);
}

/** Half-cycles while driven, from the envelope, then those of the ring-down, whose peaks fall evenly to the moment when the primary is quiet. */
function lobesOf(result: BurstResult, period: Second): Lobe[] {
  const { envelope } = result;
  const off = Math.min(result.gatesOffTime ?? result.at, period);
  const edges = [0];
  for (let n = 1; n < envelope.length; n++) edges.push((envelope[n]!.time + envelope[n - 1]!.time) / 2);
  if (off > edges.at(-1)!) edges.push(off);
  const lobes: Lobe[] = [];
  for (let n = 1; n < edges.length; n++) {
    const peak = envelope[Math.min(n - 1, envelope.length - 1)]?.current ?? 0;
    lobes.push({ from: edges[n - 1]!, to: edges[n]!, peak, side: n % 2 === 1 ? "upper" : "lower", driven: true });
  }
  const quiet = Math.min(period, Math.max(off, result.primaryQuietTime ?? off));
  const halfCycle = result.meanFrequency === undefined ? quiet - off : 0.5 / result.meanFrequency;
  const count = quiet > off ? Math.max(1, Math.round((quiet - off) / halfCycle)) : 0;
  const last = lobes.at(-1);
  for (let n = 0; n < count; n++) {
    lobes.push({
      from: off + (n * (quiet - off)) / count,
      to: off + ((n + 1) * (quiet - off)) / count,
      peak: (last?.peak ?? 1) * (1 - (n + 0.5) / count),
      // The bridge goes off where the current crosses zero: the ring-down begins with the other sign.
      side: (n % 2 === 0) === (last?.side === "upper") ? "lower" : "upper",
      driven: false,
    });
  }
  return lobes;
}
