/** Waveforms, ledger over time and spectrum of the last burst of a train, for pictures. */
import { type BurstResult, simulateBurst, type WaveformSamples } from "../burst/index.ts";
import { branchesOf } from "../circuit/branch.ts";
import type { BurstNetwork } from "../circuit/network.ts";
import { fourierTransform, powerOfTwoFrom } from "../numerics/fft.ts";
import type { Ratio } from "../units/si.ts";
import type { BurstStudy, EnergyPart, Waveforms } from "./burst-contract.ts";
import type { SteadyTrain } from "./burst-train.ts";

/** Samples a cycle, and in all. */
const perCycle = 28;
const mostSamples = 12_000;
const spectrumSamples = 4096;

export interface Pictures {
  readonly waveforms: Waveforms;
  readonly spectrum: BurstStudy["spectrum"];
}

/**
 * Runs the last burst once more and samples it.
 *
 * Values are exact. The ledger over time is integrated between samples and each of its parts brought to its exact end, less than 1 % away;
 * what is stored is the balance, so that it closes at every time.
 */
export function pictures(train: SteadyTrain, dielectricShare: Ratio): Pictures | undefined {
  const { network, initial, onTime, endTime } = train;
  const result = simulateBurst(network, {
    onTime,
    endTime,
    burstEnd: "synchronous",
    ...(initial ? { initial } : {}),
  });
  const exact = result.waveforms;
  if (!exact || !(exact.end > 0)) return undefined;
  const samples = exact.sample(timesOf(result, exact.end));
  const gates = gatesAt(samples.time, result);
  const conducting = samples.primaryCurrent.map((current, n) => {
    if (current === 0) return 0;
    if (current > 0) return gates.upper[n] === 1 ? 1 : 4;
    return gates.lower[n] === 1 ? 3 : 2;
  });
  const waveforms: Waveforms = {
    time: samples.time,
    primaryCurrent: samples.primaryCurrent,
    bridgeVoltage: samples.driveVoltage,
    tankVoltage: samples.tankVoltage,
    topVoltage: samples.topVoltage,
    busVoltage: samples.busUpper.map((upper, n) => upper + samples.busLower[n]!),
    gateUpper: gates.upper,
    gateLower: gates.lower,
    conducting: Uint8Array.from(conducting),
    energy: energyOverTime({ network, result, samples, conducting, dielectricShare }),
  };
  const even = Float64Array.from({ length: spectrumSamples }, (_, n) => (exact.end * n) / spectrumSamples);
  return { waveforms, spectrum: spectrumOf(exact.sample(even).primaryCurrent, exact.end) };
}

/** Evenly spaced, with every change of the gates between. */
function timesOf({ meanFrequency, gateChanges, commutations }: BurstResult, end: number): Float64Array {
  const cycles = end * (meanFrequency ?? Math.max(1, commutations.length) / end);
  const count = Math.min(mostSamples, Math.max(200, Math.ceil(perCycle * cycles)));
  const even = Array.from({ length: count + 1 }, (_, n) => Math.min(end, (end * n) / count));
  const changes = gateChanges.map(({ time }) => time).filter((time) => time > 0 && time < end);
  return Float64Array.from(new Set([...even, ...changes])).sort();
}

function gatesAt(
  time: Float64Array,
  { gateChanges, remarks }: BurstResult,
): { upper: Float64Array; lower: Float64Array } {
  const upper = new Float64Array(time.length);
  const lower = new Float64Array(time.length);
  let now = { upper: !remarks.includes("heldOff"), lower: false };
  let next = 0;
  for (let n = 0; n < time.length; n++) {
    while (next < gateChanges.length && gateChanges[next]!.time <= time[n]!) now = gateChanges[next++]!;
    upper[n] = now.upper ? 1 : 0;
    lower[n] = now.lower ? 1 : 0;
  }
  return { upper, lower };
}

function energyOverTime({
  network,
  result,
  samples,
  conducting,
  dielectricShare,
}: {
  network: BurstNetwork;
  result: BurstResult;
  samples: WaveformSamples;
  conducting: ArrayLike<number>;
  dielectricShare: Ratio;
}): Record<EnergyPart, Float64Array> {
  const { time, primaryCurrent, secondaryCurrent, streamerCurrent, busUpper, busLower } = samples;
  const count = time.length;
  const { upperSwitch, upperDiode } = branchesOf(network);
  const { ledger } = result;
  const integrated = (power: (n: number) => number, exact: number): Float64Array => {
    const sum = new Float64Array(count);
    for (let n = 1; n < count; n++) sum[n] = sum[n - 1]! + 0.5 * (power(n) + power(n - 1)) * (time[n]! - time[n - 1]!);
    const end = sum[count - 1]!;
    return end > 0 ? sum.map((value) => (value * exact) / end) : sum.fill(exact);
  };
  const square = (n: number): number => primaryCurrent[n]! ** 2;
  const throughSwitch = (n: number): boolean => conducting[n] === 1 || conducting[n] === 3;
  const parts = {
    switches: integrated(
      (n) => (throughSwitch(n) ? upperSwitch.drop * Math.abs(primaryCurrent[n]!) + upperSwitch.slope * square(n) : 0),
      ledger.switches,
    ),
    diodes: integrated(
      (n) => (throughSwitch(n) ? 0 : upperDiode.drop * Math.abs(primaryCurrent[n]!) + upperDiode.slope * square(n)),
      ledger.diodes,
    ),
    bus: integrated(square, ledger.busEsr),
    primary: integrated(square, (1 - dielectricShare) * ledger.primary),
    tank: integrated(square, dielectricShare * ledger.primary),
    secondary: integrated((n) => secondaryCurrent[n]! ** 2, ledger.secondary),
    streamer: integrated((n) => streamerCurrent[n]! ** 2, ledger.streamer),
  };
  const busEnergy = (n: number): number => 0.5 * network.bus.capacitorEach * (busUpper[n]! ** 2 + busLower[n]! ** 2);
  const atStart = busEnergy(0);
  const falls = new Float64Array(count);
  for (let n = 1; n < count; n++) falls[n] = falls[n - 1]! + Math.max(0, busEnergy(n - 1) - busEnergy(n));
  const allFalls = falls[count - 1]!;
  const drawn = allFalls > 0 ? falls.map((value) => (value * result.energyDrawn) / allFalls) : falls;
  const net = Float64Array.from({ length: count }, (_, n) => atStart - busEnergy(n));
  const returned = drawn.map((value, n) => Math.max(0, value - net[n]!));
  const stored = drawn.map((value, n) => {
    const { switches, diodes, bus, primary, tank, secondary, streamer } = parts;
    const spent = switches[n]! + diodes[n]! + bus[n]! + primary[n]! + tank[n]! + secondary[n]! + streamer[n]!;
    return value - returned[n]! - spent;
  });
  return { drawn, returned, ...parts, stored };
}

/** Amplitudes of a record by a Hann window that keeps the peak of a steady line. */
function spectrumOf(current: Float64Array, duration: number): BurstStudy["spectrum"] {
  const transform = fourierTransform(powerOfTwoFrom(current.length));
  const from = transform.array();
  const into = transform.array();
  for (let n = 0; n < current.length; n++) {
    from[2 * n] = current[n]! * (1 - Math.cos((2 * Math.PI * n) / current.length));
    from[2 * n + 1] = 0;
  }
  transform.forward(from, into);
  const lines = current.length / 2;
  return {
    frequency: Float64Array.from({ length: lines }, (_, k) => k / duration),
    amplitude: Float64Array.from(
      { length: lines },
      (_, k) => (Math.hypot(into[2 * k]!, into[2 * k + 1]!) * (k === 0 ? 1 : 2)) / current.length,
    ),
  };
}
