/** SI numbers with their unit in the type: literals and arithmetic flow in, but a `Farad` does not flow into a `Metre`. */
declare const unit: unique symbol;
/** A plain number whose unit is `U`; the key is optional so that no cast is needed to make one. */
export type Si<U extends string> = number & { readonly [unit]?: U };

export type Metre = Si<"m">;
export type SquareMetre = Si<"m²">;
export type Second = Si<"s">;
export type Hertz = Si<"Hz">;
export type Henry = Si<"H">;
export type Farad = Si<"F">;
export type Ohm = Si<"Ω">;
export type Volt = Si<"V">;
export type Ampere = Si<"A">;
export type Watt = Si<"W">;
export type Joule = Si<"J">;
export type Coulomb = Si<"C">;
export type Kelvin = Si<"K">;
export type Pascal = Si<"Pa">;
export type Radian = Si<"rad">;
export type VoltPerMetre = Si<"V/m">;
export type KelvinPerWatt = Si<"K/W">;
export type Tesla = Si<"T">;
/** Counts, ratios and percentages as fractions. */
export type Ratio = Si<"1">;
