/** Figures of bus and mains: what the file alone says, and what a burst train adds. */
import { type Figure, figure } from "../catalogue/figure.ts";
import { inrush } from "../circuit/inrush.ts";
import { capacitorEnergy, dischargeTime, mainsPeak } from "../circuit/mains.ts";
import type { Supply } from "../description/coil.ts";
import { type MainsCurrent, mainsCurrent } from "../stress/index.ts";
import type { Farad, Ohm, Volt } from "../units/si.ts";
import type { BurstContext } from "./burst-figures.ts";
import { peaksOf } from "./burst-setting.ts";

/** Highest mains over nominal; mains and wiring in series; what a thermistor keeps of its cold resistance when warm. Common practice, no source. */
const highMains = 1.1;
const mainsResistance: Ohm = 0.5;
const warmShare = 0.05;
/** How much less and more than that resistance a socket may have. Common practice, no source. */
const softness = { least: 0.3, greatest: 3 };
/** Upper tolerances of an electrolytic capacitor and of a bleeder with its warmth. Common practice, no source. */
const capacitanceAbove = 1.2;
const bleederAbove = 1.05;
/** Extra-low voltage, direct current. */
const lowVoltage: Volt = 60;
/** One diode of the rectifier. */
const diodeDrop: Volt = 1;

/** One bank as the rectifier sees it: of a doubler, one half. */
const bankOf = ({ capacitors: { each, series, parallel } }: Supply): Farad => (each * parallel) / series;

/** What the supply holds and takes whether or not a burst can be computed. */
export function supplyFigures(supply: Supply): Figure[] {
  const { capacitors, mains } = supply;
  const banks = peaksOf(supply);
  const perBank: Volt = highMains * mainsPeak(mains.voltage);
  const peak = banks * perBank;
  const energy = banks * capacitorEnergy({ capacitance: bankOf(supply), voltage: perBank });
  const source = "ideal-rectifier";
  const keys = ["supply.mains.voltage", "supply.rectifier"];
  const bankKeys = ["supply.capacitors.each", "supply.capacitors.series", "supply.capacitors.parallel"];
  const each = perBank / capacitors.series;
  return [
    figure("bus.peakVoltage", peak, { from: keys, source }),
    figure("bus.voltageEach", each, { from: [...keys, "supply.capacitors.series"], source }),
    figure("bus.storedEnergy", energy, {
      from: [...keys, ...bankKeys],
      source,
      low: energy,
      high: capacitanceAbove * energy,
      note: "the upper end is for capacitors 20 % above their mark; the tank and the top hold more",
    }),
    ...dischargeFigures(supply, peak),
    ...inrushFigures(supply),
  ];
}

function dischargeFigures(supply: Supply, peak: Volt): Figure[] {
  const { each, series, parallel, bleeder } = supply.capacitors;
  if (bleeder === undefined) return [];
  const time = dischargeTime({ from: peak, to: lowVoltage, capacitance: each * parallel, resistance: bleeder });
  const perPlace = peak / (peaksOf(supply) * series);
  return [
    figure("bus.dischargeTime", time, {
      from: ["bus.peakVoltage", "supply.capacitors.each", "supply.capacitors.parallel", "supply.capacitors.bleeder"],
      source: "ideal-rectifier",
      low: time,
      high: capacitanceAbove * bleederAbove * time,
      note:
        parallel > 1
          ? "one bleeder at each place of the string for all capacitors side by side there; with one bleeder open the time is infinite: measure"
          : "with one bleeder open the time is infinite: measure, on every capacitor",
    }),
    figure("bus.bleederPower", (perPlace * perPlace) / bleeder, {
      from: ["bus.voltageEach", "supply.capacitors.bleeder"],
      source: "ideal-rectifier",
    }),
  ];
}

function inrushFigures(supply: Supply): Figure[] {
  const { mains, inrush: limiter } = supply;
  const resistance = (limiter?.ntc ?? 0) + mainsResistance;
  const { peak, squareTime, heat } = inrush({ mains: mains.voltage, resistance, capacitance: bankOf(supply) });
  // Each half of a doubler is charged in its own half-wave, through the same resistance.
  const banks = peaksOf(supply);
  const from = ["supply.mains.voltage", "supply.inrush.ntc", "supply.capacitors"];
  const source = "inrush-law";
  const note = limiter
    ? "thermistor cold, with half an ohm of mains; one that is still warm does not limit"
    : "the file names nothing that limits it: half an ohm of mains alone";
  return [
    figure("mains.inrushPeak", peak, { from, source, note }),
    figure("mains.inrushSquareTime", banks * squareTime, { from, source, note }),
    figure("mains.inrushHeat", banks * heat, { from, source }),
  ];
}

/** What a train of bursts draws through bus and mains. */
export function loadFigures({ coil: { supply, bridge }, setting, train }: BurstContext): Figure[] {
  const { result, ripple, period } = train;
  const source = "ideal-rectifier";
  const from = ["burst.energyDrawn", "burst.energyReturned", "interrupter.rate", "supply"];
  const sag = figure("bus.sagPerBurst", result.busSag, {
    from: ["burst.energyDrawn", "burst.energyReturned", "supply.capacitors"],
    source: "burst-simulation",
  });
  if (!ripple || !(setting.busVoltage > 0)) return [sag];
  const nominal = peaksOf(supply) * mainsPeak(supply.mains.voltage);
  const note =
    Math.abs(setting.busVoltage / nominal - 1) > 1e-9
      ? "as if a variable transformer gave the bus voltage that was set"
      : undefined;
  const rms: Volt = setting.busVoltage / peaksOf(supply) / Math.SQRT2;
  const { series, parallel, esr, bleeder } = supply.capacitors;
  const resistance = mainsResistance + warmShare * (supply.inrush?.ntc ?? 0) + (esr * series) / parallel;
  const diodes = supply.rectifier === "doubler" ? 1 : 2;
  const through = (share: number): MainsCurrent =>
    mainsCurrent({
      source: { rms, frequency: supply.mains.frequency },
      resistance: share * resistance,
      diodeDrop: Math.min(diodes * diodeDrop, 0.1 * rms),
      capacitance: bankOf(supply),
      current: train.busCurrent,
      doubler: supply.rectifier === "doubler",
    });
  const [stiff, drawn, weak] = [through(softness.least), through(1), through(softness.greatest)];
  const net = Math.max(0, result.energyNet) / period;
  const bled = bleeder === undefined ? 0 : ripple.mean ** 2 / (peaksOf(supply) * series * bleeder);
  const rectifier = (net + bled) * ((peaksOf(supply) * diodes * diodeDrop) / ripple.mean);
  const power = net + bled + rectifier;
  const factorOf = ({ power: into, rms: current }: MainsCurrent): number =>
    current > 0 ? Math.min(1, into / (rms * current)) : 0;
  const factor = factorOf(drawn);
  const currentAt = (share: number): number => (share > 0 ? power / (rms * share) : 0);
  const current = currentAt(factor);
  const each = eachCapacitor();
  return [
    figure("bus.voltage", ripple.mean, {
      from: ["supply.mains", "supply.rectifier", "bus.ripple"],
      source,
      low: Math.min(ripple.mean, peaksOf(supply) * drawn.voltage),
      high: ripple.mean,
      note:
        note ??
        "ideal diodes and mains; the lower end has half an ohm of mains, a warm thermistor and the diodes' drop in it",
    }),
    figure("bus.ripple", ripple.ripple, {
      from: ["mains.power", "supply.mains.frequency", "supply.capacitors"],
      source,
      note: "ideal diodes and mains: the supply's own resistance takes some of it away",
    }),
    sag,
    figure("bus.capacitorCurrent", each.rms, { from: ["burst.rmsPrimaryCurrent", "mains.currentRms"], source }),
    figure("bus.capacitorHeat", esr * each.rms ** 2, {
      from: ["bus.capacitorCurrent", "supply.capacitors.esr"],
      source: "capacitor-stress",
      note: "series resistance as in the file; it falls with frequency",
    }),
    figure("mains.power", power, { from, source, ...noted() }),
    figure("mains.currentRms", current, {
      from: ["mains.power", "mains.powerFactor", "supply.mains.voltage"],
      source,
      low: Math.min(current, currentAt(factorOf(weak))),
      high: Math.max(current, currentAt(factorOf(stiff))),
      note: "half an ohm of mains and a warm thermistor are assumed; a stiffer mains makes it larger, a weaker one or a choke smaller",
    }),
    figure("mains.currentPeak", drawn.peak, { from: ["mains.power", "supply"], source }),
    ...(factor > 0
      ? [
          figure("mains.powerFactor", factor, {
            from: ["mains.power", "supply"],
            source,
            low: Math.min(factor, factorOf(stiff)),
            high: Math.max(factor, factorOf(weak)),
          }),
        ]
      : []),
  ];

  function noted(): { note?: string } {
    return note === undefined ? {} : { note };
  }

  function eachCapacitor(): { rms: number } {
    // A half bridge takes its current in turn from one half of the bus and the other.
    const bursts = ((bridge.kind === "half" ? 0.5 : 1) * result.primaryCurrentSquare) / period;
    return { rms: Math.hypot(Math.sqrt(bursts), drawn.capacitorRms) / parallel };
  }
}
