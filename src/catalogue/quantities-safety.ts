/** The figures of stand-off: line, fields, noise, stored energy, touch. Names and units stay. None of them is a permission. */
import { autoDigits as auto, plainDigits as plain, type Quantity } from "./quantity.ts";

const line: readonly Quantity[] = [
  {
    id: "standoff.reach",
    unit: "m",
    name: "reach, upper bound",
    group: "stand-off",
    definition: "how far the arc may reach in free air from where it leaves the coil, at the interrupter's hard limits",
    formula:
      "upper end of the streamer's length: the lesser of energy over the least energy a metre and voltage over the lowest gradient",
    display: plain("m", 2),
  },
  {
    id: "standoff.strike",
    unit: "m",
    name: "strike distance",
    group: "stand-off",
    definition:
      "from every place where the coil may break out, the winding included: nobody and nothing earthed inside, but what is meant to be struck",
    formula: "1.5 × upper bound of reach",
    display: plain("m", 2),
  },
  {
    id: "standoff.audience",
    unit: "m",
    name: "line for bystanders",
    group: "stand-off",
    definition:
      "distance from the coil's axis, along the floor, that is recommended for bystanders, behind a barrier; no permission",
    formula:
      "the greatest of: reach with its margin, reference levels of both fields for the public, noise dose, common practice",
    display: plain("m", 2),
  },
];

const distance = (id: string, name: string, definition: string): Quantity => ({
  id,
  unit: "m",
  name,
  group: "fields",
  definition,
  formula: "farthest distance at which the field, of peak charges or currents over √2, still reaches the level",
  display: plain("m", 2),
});

const fields: readonly Quantity[] = [
  {
    id: "standoff.rf.electricField",
    unit: "V/m",
    name: "electric, at the line",
    group: "fields",
    definition:
      "rms inside the burst at the line for bystanders, greatest up to 2 m above the floor, nobody there; against the public reference level",
    formula: "charges of winding and top load and their images in the floor, added up, over √2",
    display: auto(3),
  },
  {
    id: "standoff.rf.magneticField",
    unit: "A/m",
    name: "magnetic, at the line",
    group: "fields",
    definition:
      "rms inside the burst at the line for bystanders, greatest up to 2 m above the floor; against the public reference level",
    formula: "every turn of primary and secondary at its peak current, both taken together, over √2",
    display: auto(3),
  },
  distance(
    "standoff.rf.electricPublic",
    "electric, public",
    "from the axis: up to there the electric field passes the nerve level for the public",
  ),
  distance(
    "standoff.rf.electricOccupational",
    "electric, occupational",
    "from the axis: up to there the electric field passes the nerve level for people at work",
  ),
  distance(
    "standoff.rf.magneticPublic",
    "magnetic, public",
    "from the axis: up to there the magnetic field passes the nerve level for the public",
  ),
  distance(
    "standoff.rf.magneticOccupational",
    "magnetic, occupational",
    "from the axis: up to there the magnetic field passes the nerve level for people at work",
  ),
  {
    id: "standoff.rf.farField",
    unit: "V/m",
    name: "electric, 300 m away",
    group: "fields",
    definition: "peak at the floor 300 m away in the open, unscreened; beside the emission limits, no legal advice",
    formula: "short vertical source over a conducting plane, from the moment of charge of winding and top load",
    display: auto(2),
  },
];

const noise: readonly Quantity[] = [
  {
    id: "standoff.noise.levelAt1m",
    unit: "dB(A)",
    name: "level at 1 m",
    group: "noise",
    definition: "of the sparks in the open, at the setting; a measured level in the file takes its place",
    formula:
      "ten times the logarithm of the sound power over 1 pW, less 11 dB; a thousandth of the streamer's power, to ten times either way",
    display: plain("dB(A)", 3),
  },
  {
    id: "standoff.noise.levelAtLine",
    unit: "dB(A)",
    name: "level at the line",
    group: "noise",
    definition: "at the line for bystanders, over a hard floor; a room makes it louder",
    formula: "level at 1 m, plus 3 dB for the floor, less 20 times the logarithm of the distance",
    display: plain("dB(A)", 3),
  },
  {
    id: "standoff.noise.timeTo100Percent",
    unit: "s",
    name: "time to full dose",
    group: "noise",
    definition: "at the line for bystanders, until 85 dB(A) over 8 h with 3 dB exchange is full; the lower end counts",
    formula: "8 h, halved for each 3 dB above 85 dB(A)",
    display: auto(2),
  },
  {
    id: "standoff.noise.distance",
    unit: "m",
    name: "distance of full dose",
    group: "noise",
    definition:
      "from the axis: there the show's length fills the daily dose of 85 dB(A) over 8 h, at the upper end of the level",
    formula: "level at 1 m over a hard floor, 6 dB less for each doubling of the distance",
    display: plain("m", 2),
  },
];

const stored: readonly Quantity[] = [
  {
    id: "standoff.stored.tank",
    unit: "J",
    name: "tank capacitor",
    group: "stored",
    definition: "most that the tank capacitor can be left with when a burst stops",
    formula: "half the capacitance × square of the peak tank voltage",
    display: auto(3),
  },
  {
    id: "standoff.stored.top",
    unit: "J",
    name: "top load and winding",
    group: "stored",
    definition: "in the field of top load and winding at the peak of a burst",
    formula: "half the secondary's energy capacitance × square of the peak top voltage",
    display: auto(3),
  },
  {
    id: "standoff.stored.topCharge",
    unit: "C",
    name: "charge on the top",
    group: "stored",
    definition: "on the top load in its place, at the peak of a burst",
    formula: "capacitance of the top load in place × peak top voltage",
    display: auto(3),
  },
];

const touched = (id: string, unit: string, name: string, definition: string, formula: string): Quantity => ({
  id: `standoff.touch.${id}`,
  unit,
  name,
  group: "touch",
  definition: `${definition}; informative, never a permission`,
  formula,
  display: auto(2),
});

const touch: readonly Quantity[] = [
  touched(
    "pulsePeak",
    "A",
    "spark, peak",
    "a person in the way of the top load's charge, 500 Ω",
    "peak top voltage / 500 Ω",
  ),
  touched(
    "pulseDuration",
    "s",
    "spark, duration",
    "until 95 % of the top load's charge has passed",
    "3 × 500 Ω × capacitance of the top load in place",
  ),
  touched(
    "pulseSquareTime",
    "A²s",
    "spark, specific energy",
    "of the top load's charge through 500 Ω",
    "square of the peak × 500 Ω × capacitance / 2",
  ),
  touched(
    "carrier",
    "A",
    "carrier, rms in burst",
    "at the operating frequency through somebody whom the arc reaches; the upper end is all that the winding's base carries",
    "peak top voltage over the streamer's impedance, over √2",
  ),
  touched(
    "direct",
    "A",
    "direct current",
    "mean of what an arc rectifies; asymmetry 0.05, from 0.01 to 0.3",
    "asymmetry × peak carrier / π × duty",
  ),
  touched(
    "line1",
    "A",
    "line at the rate, rms",
    "first line of what an arc rectifies; asymmetry 0.05, from 0.01 to 0.3",
    "twice the direct current × sinc of the duty, over √2",
  ),
  touched(
    "audible",
    "A",
    "lines to 1 kHz, rms",
    "all lines up to 1 kHz, or the first where the rate is higher, of what an arc rectifies; asymmetry 0.05, from 0.01 to 0.3",
    "root of the sum of squares of the lines",
  ),
  touched(
    "chargePerBurst",
    "C",
    "charge per burst",
    "moved one way by an unequal arc in one burst; asymmetry 0.05, from 0.01 to 0.3",
    "asymmetry × peak carrier × on-time / π",
  ),
  touched(
    "muscleDepth",
    "m",
    "depth in muscle",
    "at the operating frequency: a limb is thinner than this, so the current fills it",
    "depth of penetration from conductivity and permittivity of muscle",
  ),
  touched(
    "copperDepth",
    "m",
    "depth in copper",
    "at the operating frequency, to hold the depth in muscle against",
    "root of 2 over angular frequency, permeability and conductivity",
  ),
];

export const safetyQuantities: readonly Quantity[] = [...line, ...fields, ...noise, ...stored, ...touch];
