/** Every published source and every statement of practice that a figure or a finding stands on, by key. */
import { benchSources } from "./sources-bench.ts";
import { matchSources } from "./sources-match.ts";
import { programmeSources } from "./sources-programme.ts";
import { safetySources } from "./sources-safety.ts";
import { soundSources } from "./sources-sound.ts";

/**
 * How far the words of a source may be trusted here.
 * - `read`: the source itself was open.
 * - `derived`: it follows from definitions, and anybody can derive it; textbooks agree.
 * - `secondary`: a reproduction or quotation of it was open.
 * - `memory`: it was written down from memory; it must not be printed as "the standard says".
 * - `practice`: common practice of the trade, no source.
 * - `model`: this project's own model, described in its documentation.
 */
export type Standing = "read" | "derived" | "secondary" | "memory" | "practice" | "model";

export interface Source {
  /** Author, or the body that issued a standard; for `practice` and `model` who says so in plain words. */
  readonly author: string;
  readonly title: string;
  readonly year?: number;
  /** Clause, equation, page or table, where it is known. */
  readonly where?: string;
  readonly standing: Standing;
  /** What is taken from it. */
  readonly says: string;
}

/** The mark shown beside a source, in words. */
export const standingWords: Readonly<Record<Standing, string>> = {
  read: "read in the source",
  derived: "follows from the definitions, as in any textbook",
  secondary: "read in a secondary source",
  memory: "from memory, not checked against the source",
  practice: "common practice, no source",
  model: "this project's own model",
};

const table = {
  "codata-2018": {
    author: "CODATA",
    title: "Recommended values of the fundamental physical constants",
    year: 2018,
    standing: "memory",
    says: "electric and magnetic constant",
  },
  dlmf: {
    author: "National Institute of Standards and Technology",
    title: "Digital Library of Mathematical Functions",
    where: "chapters 10, 14 and 19, as cited beside each function",
    standing: "secondary",
    says: "Bessel functions, toroidal harmonics, elliptic integrals on the arithmetic-geometric mean",
  },
  "rosa-grover-169": {
    author: "E. B. Rosa, F. W. Grover",
    title:
      "Formulas and tables for the calculation of mutual and self inductance, Bulletin of the Bureau of Standards 8, S169",
    year: 1912,
    where: "eq. (1), p. 6, after Maxwell",
    standing: "secondary",
    says: "mutual inductance of coaxial circular filaments in complete elliptic integrals; summed over every pair of turns",
  },
  "round-wire-ring": {
    author: "J. C. Maxwell, Lord Rayleigh",
    title: "Self-inductance of a thin circular ring carrying its current on the surface: µ0·a·(ln(8a/r) − 2)",
    where: "as given by Rosa and Grover 1912",
    standing: "secondary",
    says: "self term of a turn of round wire or tube, external flux only; order (r/a)² dropped",
  },
  "flat-strip-ring": {
    author: "E. B. Rosa, F. W. Grover",
    title: "Self-inductance of a circular ring of flat strip by its geometric mean distance",
    year: 1912,
    standing: "memory",
    says: "self term of a turn of flat trace: the ring of round wire with the radius replaced by the strip's mean distance from itself",
  },
  "nagaoka-1909": {
    author: "H. Nagaoka",
    title: "The inductance coefficients of solenoids, Journal of the College of Science, Tokyo 27, article 6",
    year: 1909,
    where: "closed form; table on p. 31",
    standing: "secondary",
    says: "inductance of a cylindrical current sheet",
  },
  "rosa-1906": {
    author: "E. B. Rosa",
    title: "Calculation of the self-inductance of single-layer coils, Bulletin of the Bureau of Standards 2, p. 161",
    year: 1906,
    standing: "secondary",
    says: "correction from a current sheet to round wires, G and H",
  },
  "wheeler-1928": {
    author: "H. A. Wheeler",
    title: "Simple inductance formulas for radio coils, Proceedings of the Institute of Radio Engineers 16, p. 1398",
    year: 1928,
    standing: "memory",
    says: "single-layer coil within 1 % where the length is more than 0.4 of the diameter; flat spiral within 5 %",
  },
  "medhurst-1947": {
    author: "R. G. Medhurst",
    title: "H. F. resistance and self-capacitance of single-layer solenoids, Wireless Engineer 24, pp. 35 and 80",
    year: 1947,
    standing: "secondary",
    says: "self-capacitance against length over diameter (about 5 %, experimental) and ratio of resistances; a cross-check only",
  },
  "boundary-elements": {
    author: "this project",
    title:
      "Electrostatics of the coil in its room by boundary elements on conductors of revolution over a ground plane",
    where: "docs/model.md",
    standing: "model",
    says: "charges on every surface from Laplace's equation; the winding is a smooth cylinder whose potential follows its turns",
  },
  "toroidal-harmonics": {
    author: "C. Snow",
    title: "Capacitance of a torus in free space, its series in toroidal harmonics",
    where: "Formulas for computing capacitance and inductance, NBS Circular 544 (1954)",
    standing: "memory",
    says: "exact capacitance of a single torus alone",
  },
  coulomb: {
    author: "textbooks of electrostatics",
    title: "Capacitance of a sphere alone, 4π·ε0·radius",
    standing: "derived",
    says: "exact capacitance of a single sphere alone",
  },
  "distributed-resonator": {
    author: "this project",
    title: "The secondary as a distributed resonator: every turn its own current, every charge node its own potential",
    where: "docs/model.md",
    standing: "model",
    says: "modes of the generalised eigenproblem of the inductance and capacitance matrices, quasi-static",
  },
  "skin-effect-bessel": {
    author: "Lord Kelvin",
    title: "Alternating current resistance of a round wire in Bessel functions",
    year: 1889,
    standing: "secondary",
    says: "Re[(ka/2)·J0(ka)/J1(ka)] with k = (1 − j)/skin depth",
  },
  "proximity-orthogonality": {
    author: "J. A. Ferreira",
    title:
      "Improved analytical modeling of conductive losses in magnetic components, IEEE Transactions on Power Electronics 9, p. 127",
    year: 1994,
    standing: "memory",
    says: "loss of a round wire in the transverse field of the other turns, added to the skin loss since the two are orthogonal",
  },
  "astm-b258": {
    author: "ASTM International",
    title: "B258, Standard nominal diameters of solid round wires used as electrical conductors",
    standing: "secondary",
    says: "diameter = 0.005 in × 92^((36 − n)/39)",
  },
  "iec-60028": {
    author: "International Electrotechnical Commission",
    title: "IEC 60028, International standard of resistance for copper",
    year: 1925,
    standing: "memory",
    says: "1/58 Ω·mm²/m at 20 °C; 0.00393 per kelvin at constant mass",
  },
  "iec-60317": {
    author: "International Electrotechnical Commission",
    title: "IEC 60317-0-1, Specifications for particular types of winding wires: enamelled round copper wire",
    standing: "memory",
    says: "grades of enamel build and their breakdown voltages; 2.2 kV taken for grade 1 in the sizes used here",
  },
  "peek-1929": {
    author: "F. W. Peek",
    title: "Dielectric phenomena in high voltage engineering, 3rd edition",
    year: 1929,
    standing: "secondary",
    says: "surface field at which corona starts: wires 30·δ·(1 + 0.301/√(δr)), spheres 27.2·δ·(1 + 0.54/√(δR)) kV/cm peak, r in cm (spheres from memory)",
  },
  "iec-60060-1": {
    author: "International Electrotechnical Commission",
    title: "IEC 60060-1, High-voltage test techniques: general definitions and test requirements",
    standing: "memory",
    says: "relative air density δ = (p/101.3 kPa)·(293 K/(273 K + t)); rod-rod gap 2 kV + 0.534 kV/mm, 250 mm to 2500 mm",
  },
  paschen: {
    author: "F. Paschen; constants from handbooks of gas discharge",
    title: "Breakdown voltage of air between plane electrodes against pressure times distance",
    year: 1889,
    standing: "secondary",
    says: "least breakdown voltage of air about 327 V peak (experimental minimum, quoted)",
  },
  "partial-discharge-inception": {
    author: "T. W. Dakin",
    title: "Inception of partial discharge between insulated conductors in air: 163·(2t/ε)^0.46 V rms, t in µm",
    standing: "memory",
    says: "rms voltage at which the air beside two touching enamelled wires first discharges",
  },
  "aiee-needle-gap": {
    author: "American Institute of Electrical Engineers",
    title: "Sparkover of needle gaps in air at 760 mmHg and 25 °C, peak volts",
    where: "handbook table",
    standing: "secondary",
    says: "10 kV at 8.5 mm to 300 kV at 547 mm; needles scatter widely; the lowest law for a gap between sharp conductors",
  },
  "uniform-field-air": {
    author: "handbooks of high-voltage engineering",
    title: "Breakdown of air in a uniform field: 24.22·δd + 6.08·√(δd) kV peak, d in cm",
    standing: "memory",
    says: "an upper law for the gap between two smooth conductors",
  },
  "layered-insulation": {
    author: "textbooks of electrostatics",
    title: "Layers in series share a voltage as thickness over permittivity: E_air = U/(d_air + Σ d_i/ε_i)",
    standing: "derived",
    says: "a thin gap of air under a solid coat takes most of the stress",
  },
  "streamer-gradient": {
    author: "textbooks on long air gaps",
    title: "Mean field along a streamer without leader: 4.5–5 kV/cm positive, 7.5–12.5 kV/cm negative",
    standing: "secondary",
    says: "the voltage that a gap needs for streamers to cross it; alternating voltage is governed by the positive half-wave",
  },
  "hot-channel-gradient": {
    author: "builders of the trade",
    title: "Mean gradient of a channel that is used again from burst to burst: 0.5–2.5 kV/cm",
    standing: "practice",
    says: "upper bound of reach from a voltage",
  },
  "channel-capacitance": {
    author: "this project",
    title: "Capacitance per length of a thin channel in free air: 2π·ε0/(ln(2L/a) − 1)",
    where: "docs/model.md",
    standing: "model",
    says: "8.4 pF/m for a channel of 1 mm radius to 12.9 pF/m for 1 cm, at 1 m of length",
  },
  "reach-power-law": {
    author: "builders of the trade",
    title: "Reach in free air of 0.03–0.06 m per square root of a watt of mean power",
    standing: "practice",
    says: "a cross-check of reach only",
  },
  "lc-resonance": {
    author: "W. Thomson",
    title: "Resonance of one inductance and one capacitance: f = 1/(2π√(LC))",
    year: 1853,
    standing: "derived",
    says: "the frequency of a lossless loop; also ½LI² = ½CV²",
  },
  "coupled-circuits": {
    author: "textbooks of radio engineering",
    title: "Two inductively coupled loops: ω² = [ω1² + ω2² ∓ √((ω1² − ω2²)² + 4k²ω1²ω2²)]/[2(1 − k²)]",
    standing: "derived",
    says: "the two poles of a tank and a resonator, lossless; equal tune gives f0/√(1 ± k)",
  },
  "quality-factor": {
    author: "textbooks of radio engineering",
    title: "Q = 2π·f × energy stored / power lost",
    standing: "derived",
    says: "definition of the quality factor",
  },
  geometry: {
    author: "this project",
    title: "Plain geometry of the parts as drawn",
    standing: "model",
    says: "lengths, areas and gaps from the dimensions in the coil file",
  },
  "coil-file": {
    author: "this coil",
    title: "The coil file",
    standing: "read",
    says: "what the file gives, taken as it stands",
  },
  "bank-energy-bound": {
    author: "this project",
    title:
      "Greatest top voltage that the bank's energy can raise: V = I_bank·√(L/C_e), all of ½LI² gathered in ½C_e·V² of mode 1",
    where: "docs/model.md",
    standing: "model",
    says: "a rough bound before the burst is computed: no losses, nothing left in the tank, at the overcurrent setting; low end at a third of it",
  },
  "model-uncertainty": {
    author: "this project",
    title: "What the model itself may be off by, from exact dimensions",
    where: "docs/model.md",
    standing: "model",
    says: "f1 ±1 % in clear space, ±2 % near walls or imperfect ground; Q of the winding ±10 % for thin wire to ±30 % for close-wound thick wire",
  },
  "first-order-propagation": {
    author: "textbooks of measurement",
    title: "Propagation of uncertainty to first order: the root of the sum of squares of sensitivity times tolerance",
    standing: "derived",
    says: "tolerances are half-widths that hold 95 %, taken as two standard deviations; intervals shown hold 90 %",
  },
  "interrupter-ring-up": {
    author: "textbooks of radio engineering",
    title: "A loop driven at its resonance rings up by drive × time / (2 × inductance)",
    standing: "derived",
    says: "the current that a burst may reach where no overcurrent setting stops it; no losses, secondary ignored",
  },
  "burst-energy-bound": {
    author: "this project",
    title:
      "Most energy that the bridge can deliver in one burst: drive amplitude × greatest current / 2 × longest on-time",
    where: "docs/model.md",
    standing: "model",
    says: "a rough bound before the burst is computed; over 2.8 J/m (heating a cold channel) to 20 J/m (with branches) it bounds the length",
  },
  "stand-off-practice": {
    author: "builders of the trade",
    title:
      "Strike distance 1.5 × reach; bystanders at the greatest of 2 × reach, reach + 1.5 m and the noise line, behind a barrier",
    standing: "practice",
    says: "where people stand; local rules come first",
  },
  "iec-60479": {
    author: "International Electrotechnical Commission",
    title: "IEC 60479, Effects of current on human beings and livestock",
    standing: "memory",
    says: "context only: a current through the body at mains frequency can stop the heart",
  },
  "common-practice": {
    author: "builders of the trade",
    title: "Common practice, no source",
    standing: "practice",
    says: "a rule of the workshop; it holds often, not always",
  },
  "burst-simulation": {
    author: "this project",
    title: "One burst as a switched linear circuit, solved exactly from event to event",
    where: "docs/burst.md",
    standing: "model",
    says: "currents, voltages and energies of bus, bridge, tank, secondary modes and streamer; the ledger closes to rounding",
  },
  "burst-train": {
    author: "this project",
    title: "Bursts repeated until bus, streamer and what still rings are the same from one to the next",
    where: "docs/burst.md",
    standing: "model",
    says: "the steady state of a train at one setting",
  },
  "channel-growth": {
    author: "this project",
    title:
      "Length of a channel: the lesser of remembered energy over energy per metre and top voltage over gradient, at least that of cold streamers",
    where:
      "docs/burst.md; 2.8 J/m computed for a cold channel of 0.5 mm radius, 3–20 J/m and 0.5–2.5 kV/cm from the bench",
    standing: "practice",
    says: "reach in free air to a factor of two to three either way; common practice, no source",
  },
  "ideal-rectifier": {
    author: "textbooks of power electronics",
    title:
      "Rectifier with a capacitor behind it: release where the mains falls faster than the capacitor, capture at the next half-wave",
    standing: "read",
    says: "mean, ripple and current of the bus in the steady state; also E = ½CV² and RC·ln(V0/V)",
  },
  "inrush-law": {
    author: "textbooks of circuits",
    title: "An empty capacitor through a resistance: V/R, V²C/(2R), ½CV²",
    standing: "read",
    says: "upper bound of current, I²t and heat at switch-on; a warm thermistor does not limit",
  },
  "switching-energy-scaling": {
    author: "application manuals of power semiconductors",
    title: "Switching energy about the data-sheet point: E = E_ref·(I/I_ref)·(V/V_ref)^1.3…1.4",
    standing: "memory",
    says: "turn-off energy at the current that is really switched; turn-on with recovery taken as large, to a factor of two either way (common practice)",
  },
  "foster-network": {
    author: "data-sheet practice",
    title:
      "Junction over case as a sum of exponentials, each advanced exactly; in a steady train by the geometric series",
    standing: "memory",
    says: "T = T_case + Σ r·(1 − e^(−t/τ))·P; terms are a curve fit, not places",
  },
  "capacitor-stress": {
    author: "capacitor data sheets",
    title: "Sharing of a string, I = C·dV/dt, loss ωCV²·tan δ = I²·R",
    standing: "memory",
    says: "voltage, current, slope and heat of one capacitor of a bank",
  },
  "current-transformer": {
    author: "textbooks of measurement",
    title: "Current transformer with a burden: V = I·R/N",
    standing: "read",
    says: "voltage on the burden, below saturation",
  },
  "gate-transformer": {
    author: "textbooks of power electronics",
    title: "Law of induction for a square drive: ΔB = V·(T/2)/(N·A); gate power Q·ΔV·f",
    standing: "read",
    says: "flux swing, twice the steady peak in the first half-cycle; charge moved through the swing each cycle",
  },
  "gate-step": {
    author: "textbooks of circuits",
    title: "Step into a series resistor, inductor and capacitor",
    standing: "read",
    says: "peak current, rise time and overshoot of a gate taken as one capacitance, charge over swing; an estimate, the gate's own capacitance moves with voltage",
  },
  "doe-capacitor-hazard": {
    author: "Lawrence Berkeley National Laboratory, after the US Department of Energy",
    title: "Electrical Safety Manual: classes of capacitor hazards",
    where: "table 2.2.13: 100 V and 10 J; 1 J and 0.25 J above 400 V from memory",
    standing: "read",
    says: "lines that stored energy is held against; context, no limit of what may be touched",
  },
  "iec-62368-1": {
    author: "International Electrotechnical Commission",
    title: "IEC 62368-1, Audio/video, information and communication technology equipment: safety requirements",
    where: "table 5",
    standing: "memory",
    says: "voltage of a charged capacitor by its size, 500 V at 8 nF to 60 V at 300 nF",
  },
  "iec-60127": {
    author: "International Electrotechnical Commission",
    title: "IEC 60127, Miniature fuses, and the practice about it",
    standing: "memory",
    says: "melting integral of about 0.5 s × rating² for quick and 4 s × rating² for time-lag fuses; 0.2–0.3 of it for repeated inrush",
  },
  "iec-60898": {
    author: "International Electrotechnical Commission",
    title: "IEC 60898-1, Circuit-breakers for overcurrent protection for household and similar installations",
    standing: "memory",
    says: "characteristic B opens at once between three and five times its rating",
  },
  "film-capacitor-practice": {
    author: "film capacitor data sheets",
    title: "Alternating voltage, current, dV/dt and heat of film capacitors of a few centimetres",
    standing: "memory",
    says: "alternating rating about 0.35 of the direct one; 8 A effective, 3000 V/µs and 1 W as lines worth a look",
  },
  "electrolytic-practice": {
    author: "electrolytic capacitor data sheets",
    title: "Ripple current and heat of electrolytic capacitors; life halves with each 10 K",
    standing: "memory",
    says: "about 0.045 A × (µF)^0.7 for cans of some hundred volts; 3 W for about 10 K",
  },
  "natural-convection": {
    author: "handbooks of heat transfer",
    title: "Heat through a surface in still air, radiation counted: about 10 W/(m²·K)",
    standing: "memory",
    says: "warmth of a winding from its loss and its surface",
  },
  "power-cycling": {
    author: "application manuals of power semiconductors",
    title: "Fatigue of bond wires and solder by swings of the junction temperature",
    standing: "memory",
    says: "swings of 30 K and more count; cycles to failure fall with about the fifth power of the swing",
  },
  "gate-drive-practice": {
    author: "gate-drive application notes",
    title: "Gate voltage and dead time of power switches",
    standing: "memory",
    says: "13–20 V for IGBTs, 10–20 V for MOSFETs, 30 V for moments; dead time one and a half times the gate's rise",
  },
  ...benchSources,
  ...matchSources,
  ...programmeSources,
  ...safetySources,
  ...soundSources,
} as const satisfies Record<string, Source>;

export type SourceKey = keyof typeof table;

/** All sources by key, in the order of the documentation. */
export const sources: ReadonlyMap<string, Source> = new Map(Object.entries(table));
