/** A first guess of the streamer's length, before a burst is computed: what the tune is aimed at where the file says nothing. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import type { Henry, Joule, Metre } from "../units/si.ts";

/** Metres of reach per root of a watt: middle, least and greatest of the workshop's power law. */
const perRootWatt = { middle: 0.045, least: 0.03, greatest: 0.06 };
/** Part of what the bridge could deliver at resonance that a detuned, notching burst does deliver; from memory. */
const delivered = { middle: 0.5, least: 0.2, greatest: 1 };

/**
 * From mean power by the power law, the power being one burst's energy times the rate. Without bridge, supply and interrupter in the file: as
 * long as the winding.
 *
 * @source reach-power-law: common practice, no source; the interval is wide and that is all it can be
 */
export function predictedStreamer(coil: Coil, tankInductance: Henry): { value: Metre; figure: Figure } {
  const energy = burstEnergy(coil, tankInductance);
  if (energy === undefined) {
    const value = coil.secondary.length;
    return {
      value,
      figure: figure("tuning.streamerLength", value, {
        from: ["secondary.length"],
        source: "common-practice",
        low: value / 3,
        high: 3 * value,
        note: "the file gives no bridge, supply and interrupter to predict from: a streamer as long as the winding stands in; write `aim` to choose",
      }),
    };
  }
  const rate = coil.interrupter!.rate;
  const reach = (factor: number, part: number): Metre => factor * Math.sqrt(part * energy * rate);
  const value = reach(perRootWatt.middle, delivered.middle);
  return {
    value,
    figure: figure("tuning.streamerLength", value, {
      from: [
        "bridge.kind",
        "supply",
        "tank.inductance",
        "interrupter.onTime",
        "interrupter.rate",
        "feedback.overcurrent",
      ],
      source: "reach-power-law",
      low: reach(perRootWatt.least, delivered.least),
      high: reach(perRootWatt.greatest, delivered.greatest),
      note: "common practice, no source; a cross-check, not a stand-off",
    }),
  };
}

/** What the bridge delivers in one burst into a tank that rings up without loss, up to the overcurrent setting [J]. */
function burstEnergy({ bridge, supply, interrupter, feedback }: Coil, tankInductance: Henry): Joule | undefined {
  if (!bridge || !supply || !interrupter) return undefined;
  const bus = Math.SQRT2 * supply.mains.voltage * (supply.rectifier === "doubler" ? 2 : 1);
  const square = bridge.kind === "full" ? bus : bus / 2;
  const drive = (4 / Math.PI) * square;
  const reached = Math.min(
    (drive * interrupter.onTime) / (2 * tankInductance),
    feedback?.overcurrent ?? Number.POSITIVE_INFINITY,
  );
  return (drive * reached * interrupter.onTime) / 4;
}
