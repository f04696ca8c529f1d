/** The kinds of quantity a key can hold: what each is called, its SI unit, the unit people usually write it in, and an example. */

const table = {
  length: { si: "m", called: "a length", usual: "mm", example: "420 mm" },
  area: { si: "m²", called: "an area", usual: "mm²", example: "40 mm²" },
  time: { si: "s", called: "a time", usual: "µs", example: "110 µs" },
  frequency: { si: "Hz", called: "a frequency", usual: "Hz", example: "180 Hz" },
  inductance: { si: "H", called: "an inductance", usual: "µH", example: "0.35 µH" },
  capacitance: { si: "F", called: "a capacitance", usual: "nF", example: "150 nF ± 5 %" },
  resistance: { si: "Ω", called: "a resistance", usual: "Ω", example: "6.8 Ω" },
  voltage: { si: "V", called: "a voltage", usual: "V", example: "450 V" },
  current: { si: "A", called: "a current", usual: "A", example: "60 A" },
  power: { si: "W", called: "a power", usual: "W", example: "800 W" },
  energy: { si: "J", called: "an energy", usual: "mJ", example: "0.6 mJ" },
  charge: { si: "C", called: "a charge", usual: "nC", example: "190 nC" },
  temperature: { si: "K", called: "a temperature", usual: "°C", example: "20 °C" },
  pressure: { si: "Pa", called: "a pressure", usual: "hPa", example: "1013 hPa" },
  thermalResistance: { si: "K/W", called: "a thermal resistance", usual: "K/W", example: "0.9 K/W" },
  fluxDensity: { si: "T", called: "a flux density", usual: "mT", example: "200 mT" },
  angle: { si: "rad", called: "an angle", usual: "°", example: "30°" },
  ratio: { si: "1", called: "a ratio", usual: "%", example: "4 %" },
} as const;

export type Dimension = keyof typeof table;

export interface DimensionEntry {
  /** Symbol of the SI unit in which values are kept; `1` for ratios. */
  readonly si: string;
  /** With its article, for messages: `a capacitance`. */
  readonly called: string;
  /** The unit offered when somebody leaves it out. */
  readonly usual: string;
  readonly example: string;
}

export const dimensions: Readonly<Record<Dimension, DimensionEntry>> = table;

/** SI unit symbol of each dimension, as a type: `SiUnitOf<"length">` is `"m"`. */
export type SiUnitOf<D extends Dimension> = (typeof table)[D]["si"];
