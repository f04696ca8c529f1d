/** The limits that a coil's file puts on a programme. */
import { mainsPeak } from "../circuit/mains.ts";
import type { Coil, Interrupter, Supply } from "../description/coil.ts";
import type { BusStore, HeatLimit, ProgrammeLimits } from "../programme/index.ts";
import type { Kelvin, KelvinPerWatt, Ratio, Second } from "../units/si.ts";
import { peaksOf } from "./burst-setting.ts";

/** Time constant of a heatsink, which the file does not have; larger ones warm more slowly than this. Common practice, no source. */
const heatsinkTime: Second = 60;
/** A film capacitor of some centimetres in still air: kelvins per watt, time constant, and what it may warm by. Common practice, no source. */
const film: { readonly thermal: KelvinPerWatt; readonly time: Second; readonly rise: Kelvin } = {
  thermal: 12,
  time: 120,
  rise: 15,
};
/** Power over volt-amperes of a rectifier with a capacitor behind it, on a usual mains. Common practice, no source. */
const powerFactor: Ratio = 0.6;
/** Part of the full bus that is never gone below. Common practice, no source. */
const lowestBus: Ratio = 0.5;

/** @returns undefined without an interrupter; `assumed` where its setting stands for limits that the file does not have */
export function limitsOf(coil: Coil): { readonly limits: ProgrammeLimits; readonly assumed: boolean } | undefined {
  const { interrupter, supply } = coil;
  if (interrupter === undefined) return undefined;
  const junction = junctionLimit(coil);
  const capacitor = capacitorLimit(coil);
  return {
    limits: {
      ...(interrupter.limits ?? asSet(interrupter)),
      ...(supply?.fuse === undefined ? {} : { power: powerFactor * supply.mains.voltage * supply.fuse }),
      ...(supply ? { bus: lowestBus * peaksOf(supply) * mainsPeak(supply.mains.voltage) } : {}),
      ...(junction ? { junction } : {}),
      ...(capacitor ? { capacitor } : {}),
    },
    assumed: interrupter.limits === undefined,
  };
}

/** What the setting itself lets through, and nothing above it. */
function asSet({ onTime, rate }: Interrupter): Pick<ProgrammeLimits, "onTime" | "duty" | "rate" | "gap"> {
  return { onTime, rate, duty: Math.min(1, onTime * rate), gap: rate > 0 ? Math.max(0, 1 / rate - onTime) : 0 };
}

function junctionLimit({ bridge }: Coil): HeatLimit | undefined {
  if (bridge === undefined) return undefined;
  const { switch: device, heatsink } = bridge;
  return {
    terms: [...device.thermal, [heatsink.thermal, heatsinkTime]],
    ambient: heatsink.ambient,
    most: device.junctionMax,
  };
}

function capacitorLimit({ tank, site }: Coil): HeatLimit | undefined {
  if (tank?.bank.dissipation === undefined) return undefined;
  const ambient = site.air.temperature;
  return { terms: [[film.thermal, film.time]], ambient, most: ambient + film.rise };
}

/** The bus as the pulses find it. */
export function busStore(supply: Supply): BusStore {
  const { each, series, parallel } = supply.capacitors;
  const banks = peaksOf(supply);
  return {
    voltage: banks * mainsPeak(supply.mains.voltage),
    capacitance: (each * parallel) / series / banks,
    refill: banks / (2 * supply.mains.frequency),
  };
}
