/** What is still charged after the plug is out, for how long, and what it is held against. */

import { type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import { comparedStore, storedIn, waitedFor, waitingTime } from "../safety/index.ts";
import type { Solution } from "./contract.ts";
import { waitFor } from "./keep-off.ts";
import type { StandoffBursts, StandoffStored, Store } from "./standoff-contract.ts";
import { worst } from "./standoff-worst.ts";

/** Upper tolerances of an electrolytic capacitor and of a bleeder with its warmth, as for the bus. Common practice, no source. */
const above = { capacitance: 1.2, bleeder: 1.05 };

export function storedOf(coil: Coil, solution: Solution, bursts: StandoffBursts): StandoffStored {
  const stores = [...busStores(coil, bursts), ...tankStores(solution, bursts), ...topStores(solution, bursts)];
  return { stores, steps: steps(stores) };
}

function store(parts: Pick<Store, "path" | "says" | "capacitance" | "voltage" | "waiting">): Store {
  return {
    ...parts,
    ...storedIn(parts),
    comparisons: comparedStore(parts),
    waitingWithFailedBleeder: "none",
  };
}

/** The whole bus, and each place of its string for itself: a bleeder may be open at one of them. */
function busStores({ supply }: Coil, { study }: StandoffBursts): Store[] {
  const peak = study.figures.get("bus.peakVoltage")?.value;
  const each = study.figures.get("bus.voltageEach")?.value;
  if (supply === undefined || peak === undefined || each === undefined) return [];
  const { capacitors, rectifier } = supply;
  const places = capacitors.series * (rectifier === "doubler" ? 2 : 1);
  const place = above.capacitance * capacitors.each * capacitors.parallel;
  const bleeder = capacitors.bleeder === undefined ? undefined : above.bleeder * capacitors.bleeder;
  const whole = place / places;
  const wait = waitingTime({
    voltage: peak,
    capacitance: place,
    bleeder,
  });
  return [
    store({
      path: "supply.capacitors",
      says: "the bus, mains 10 % high, capacitors 20 % above their mark",
      capacitance: whole,
      voltage: peak,
      waiting: wait ?? "none",
    }),
    ...(places > 1
      ? [
          store({
            path: "supply.capacitors.series",
            says: `each of the ${places} places of the bus, measured for itself`,
            capacitance: place,
            voltage: each,
            waiting: waitingTime({ voltage: each, capacitance: place, bleeder }) ?? "none",
          }),
        ]
      : []),
  ];
}

function tankStores({ figures }: Solution, bursts: StandoffBursts): Store[] {
  const capacitance = figures.get("tank.capacitance")?.value;
  const voltage = worst(bursts, "burst.peakTankVoltage");
  if (capacitance === undefined || voltage === undefined || !(voltage.high > 0)) return [];
  return [
    store({
      path: "tank.bank",
      says: "the tank capacitor: a burst that stops can leave it charged",
      capacitance,
      voltage: voltage.high,
      waiting: "none",
    }),
  ];
}

function topStores({ figures }: Solution, bursts: StandoffBursts): Store[] {
  const capacitance = figures.get("secondary.energyCapacitance")?.value;
  const voltage = worst(bursts, "burst.peakTopVoltage");
  if (capacitance === undefined || voltage === undefined || !(voltage.high > 0)) return [];
  return [
    store({
      path: "topload",
      says: "top load and winding, at the peak of every burst; the winding drains them at once when it stops, unless it is broken",
      capacitance,
      voltage: voltage.high,
      waiting: "none",
    }),
  ];
}

function steps(stores: readonly Store[]): readonly string[] {
  const bus = stores.find(({ path }) => path === "supply.capacitors");
  const wait =
    bus === undefined
      ? "Wait: the file gives no supply, so no time can be told."
      : bus.waiting === "none"
        ? "Wait does not help: the file gives no bleeder, so the bus stays charged for days."
        : `Wait ${waitFor(bus.waiting)}, to ${waitedFor} V with every bleeder whole; with one open no wait is long enough.`;
  return [
    "Unplug. The plug lies where the second person sees it.",
    wait,
    "Measure with a meter rated for it, on every capacitor, tank capacitor too. Try the meter on a known voltage before and after.",
    "Then short each through a resistor, and leave the short on: capacitors regain some volts by themselves.",
    "A lamp or a bleeder is no proof.",
  ];
}

export function storedFigures({ stores }: StandoffStored, solution: Solution, bursts: StandoffBursts): Figure[] {
  const of = (path: string) => stores.find((one) => one.path === path);
  const [tank, top] = [of("tank.bank"), of("topload")];
  const square = (id: string): number => {
    const span = worst(bursts, id);
    return span === undefined ? 1 : (span.low / span.high) ** 2;
  };
  const inPlace = solution.figures.get("topload.capacitanceInPlace")?.value;
  const topVolts = worst(bursts, "burst.peakTopVoltage");
  return [
    ...(tank
      ? [
          figure("standoff.stored.tank", tank.energy, {
            from: ["tank.capacitance", "burst.peakTankVoltage"],
            source: "lc-resonance",
            low: 0,
            high: tank.energy,
            note: "what is left depends on where in a cycle the burst stops",
          }),
        ]
      : []),
    ...(top
      ? [
          figure("standoff.stored.top", top.energy, {
            from: ["secondary.energyCapacitance", "burst.peakTopVoltage"],
            source: "lc-resonance",
            low: square("burst.peakTopVoltage") * top.energy,
            high: top.energy,
            note: "350 mJ is the line of IEC 60335-1, as quoted, for parts that people can reach above 15 kV",
          }),
        ]
      : []),
    ...(inPlace !== undefined && topVolts !== undefined && topVolts.high > 0
      ? [
          figure("standoff.stored.topCharge", inPlace * topVolts.high, {
            from: ["topload.capacitanceInPlace", "burst.peakTopVoltage"],
            source: "charges-and-images",
            low: inPlace * topVolts.low,
            high: inPlace * topVolts.high,
          }),
        ]
      : []),
  ];
}
