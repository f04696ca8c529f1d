/** One hit and one miss for every rule, as changes of the quiet coil. A miss lies just inside the line that the hit has crossed. */
import type { Severity } from "../../src/catalogue/finding.ts";
import type { BurstSetting, BurstStudy } from "../../src/workbench/burst-contract.ts";
import type { Detuning } from "../../src/workbench/contract.ts";

export interface Change {
  /** By path, in the words of the file; undefined removes the key. */
  readonly edits?: Readonly<Record<string, string | undefined>>;
  /** Figures that stand in for the solved ones. */
  readonly figures?: Readonly<Record<string, number>>;
  readonly detunings?: readonly Detuning[];
  /** Figures of the burst at the interrupter's limits that stand in for the studied ones. */
  readonly limits?: Readonly<Record<string, number>>;
  /** The same of the burst without breakout. */
  readonly unlit?: Readonly<Record<string, number>>;
  /** Figures that are taken away. */
  readonly without?: readonly string[];
  /** Parts of the study, other than figures, that stand in for the studied ones. */
  readonly study?: Partial<Omit<BurstStudy, "figures" | "setting">> & { readonly setting?: BurstSetting };
  /** Solve and study the changed coil itself, instead of standing on the unchanged one. */
  readonly solved?: true;
  /** Share of one guess in the doubt of the tuning ratio. */
  readonly guess?: { readonly path: string; readonly share: number };
}

export interface RuleCase {
  readonly hit: Change;
  readonly miss: Change;
  /** Of the hit. */
  readonly severity: Severity;
  readonly path: string;
  /** A number that the hit's sentence must name, as it stands there. */
  readonly names?: string;
}

export const cases: Readonly<Record<string, RuleCase>> = {
  "air-thin": {
    hit: { edits: { "site.air.pressure": "850 hPa" } },
    miss: { edits: { "site.air.pressure": "930 hPa" } },
    severity: "look",
    path: "site.air.pressure",
    names: "0.839",
  },
  "bank-dissipation-missing": {
    hit: { edits: { "tank.bank.dissipation": undefined } },
    miss: {},
    severity: "look",
    path: "tank.bank",
  },
  "bank-over-voltage": {
    hit: { edits: { "tank.bank.voltage": "1.2 kV" } },
    miss: { edits: { "tank.bank.voltage": "1.5 kV" } },
    severity: "look",
    path: "tank.bank.voltage",
    names: "2.4 kV",
  },
  "bank-rating-missing": {
    hit: { edits: { "tank.bank.voltage": undefined } },
    miss: {},
    severity: "look",
    path: "tank.bank",
  },
  "bank-shares-unequally": {
    hit: { edits: { "tank.bank.voltage": "1 kV", "tank.bank.each": "76.6 nF ± 10 %" } },
    miss: { edits: { "tank.bank.voltage": "1 kV", "tank.bank.each": "76.6 nF ± 1 %" } },
    severity: "fix",
    path: "tank.bank.series",
    names: "±10 %",
  },
  "bank-tolerance-moves-tune": {
    hit: { edits: { "tank.bank.each": "76.6 nF ± 5 %" } },
    miss: { edits: { "tank.bank.each": "76.6 nF ± 5 % (measured)" } },
    severity: "look",
    path: "tank.bank.each",
    names: "±2.5 %",
  },
  "base-low": {
    hit: { edits: { "secondary.baseHeight": "40 mm" } },
    miss: { edits: { "secondary.baseHeight": "46 mm" } },
    severity: "look",
    path: "secondary.baseHeight",
    names: "40 mm",
  },
  "breakout-early": {
    hit: { figures: { "topload.breakoutVoltage": 15e3 } },
    miss: { figures: { "topload.breakoutVoltage": 25e3 } },
    severity: "look",
    path: "topload",
    names: "15 kV",
  },
  "breakout-out-of-reach": {
    hit: { figures: { "topload.breakoutVoltage": 300e3 } },
    miss: { figures: { "topload.breakoutVoltage": 110e3 } },
    severity: "look",
    path: "topload",
    names: "300 kV",
  },
  "coating-missing": {
    hit: { edits: { "secondary.coating": undefined } },
    miss: { edits: { "secondary.coating": undefined }, figures: { "winding.peakFieldPerVolt": 1.4 } },
    severity: "look",
    path: "secondary",
    names: "kV/cm",
  },
  "coating-thin": {
    hit: { edits: { "secondary.coating.thickness": "0.05 mm" } },
    miss: { edits: { "secondary.coating.thickness": "0.1 mm" } },
    severity: "look",
    path: "secondary.coating.thickness",
    names: "0.05 mm",
  },
  "coating-traps-air": {
    hit: { figures: { "winding.turnVoltagePerVolt": 0.003 } },
    miss: { figures: { "winding.turnVoltagePerVolt": 0.002 } },
    severity: "look",
    path: "secondary.coating",
    names: "polyurethane",
  },
  "coupling-high": {
    hit: { figures: { "coupling.k": 0.22 } },
    miss: { figures: { "coupling.k": 0.19 } },
    severity: "look",
    path: "primary.baseHeight",
    names: "0.22",
  },
  "coupling-low": {
    hit: { figures: { "coupling.k": 0.07 } },
    miss: { figures: { "coupling.k": 0.09 } },
    severity: "look",
    path: "primary.baseHeight",
    names: "0.07",
  },
  "edge-guessed": {
    hit: { edits: { topload: "[ { cylinder: { diameter: 130 mm, length: 60 mm, height: 740 mm } } ]" } },
    miss: {
      edits: { topload: "[ { cylinder: { diameter: 130 mm, length: 60 mm, edgeRadius: 5 mm, height: 740 mm } } ]" },
    },
    severity: "look",
    path: "topload.0.cylinder.edgeRadius",
    names: "5 mm",
  },
  "fixed-frequency-off-pole": {
    hit: { edits: { "feedback.sense": "{ fixedFrequency: 200 kHz }" } },
    miss: { edits: { "feedback.sense": "{ fixedFrequency: 200 kHz }" }, figures: { "poles.lower": 203e3 } },
    severity: "fix",
    path: "feedback.sense.fixedFrequency",
    names: "200 kHz",
  },
  "guess-decides": {
    hit: {
      edits: { "tank.leads.inductance": "0.3 µH (guessed)" },
      guess: { path: "tank.leads.inductance", share: 0.5 },
    },
    miss: {
      edits: { "tank.leads.inductance": "0.3 µH (guessed)" },
      guess: { path: "tank.leads.inductance", share: 0.2 },
    },
    severity: "look",
    path: "tank.leads.inductance",
    names: "50 %",
  },
  "interrupter-limits-missing": {
    hit: { edits: { "interrupter.limits": undefined } },
    miss: {},
    severity: "fix",
    path: "interrupter",
    names: "80 µs",
  },
  "interrupter-over-limits": {
    hit: { edits: { "interrupter.onTime": "130 µs" } },
    miss: { edits: { "interrupter.onTime": "120 µs" } },
    severity: "fix",
    path: "interrupter.onTime",
    names: "130 µs",
  },
  "layers-close": {
    hit: {
      edits: {
        "primary.conductor": "{ trace: 6 mm x 0.07 mm }",
        "primary.layers": "{ count: 2, gap: 0.8 mm, connected: series }",
      },
    },
    miss: {
      edits: {
        "primary.conductor": "{ trace: 6 mm x 0.07 mm }",
        "primary.layers": "{ count: 2, gap: 3 mm, connected: series }",
      },
    },
    severity: "look",
    path: "primary.layers.gap",
    names: "0.8 mm",
  },
  "leads-guessed": {
    hit: { edits: { "tank.leads.inductance": "0.3 µH (guessed)" } },
    miss: { edits: { "tank.leads.inductance": "0.1 µH (guessed)" } },
    severity: "look",
    path: "tank.leads.inductance",
    names: "300 nH",
  },
  "leads-large": {
    hit: { edits: { "tank.leads.inductance": "1 µH (measured)" } },
    miss: { edits: { "tank.leads.inductance": "0.7 µH (measured)" } },
    severity: "look",
    path: "tank.leads.inductance",
    names: "1 µH",
  },
  "match-tap-beyond": {
    hit: { figures: { "tuning.tapForMatch": 8.4 } },
    miss: { figures: { "tuning.tapForMatch": 7.9 } },
    severity: "fix",
    path: "primary.turns",
    names: "8.4",
  },
  "match-tap-inside": {
    hit: { figures: { "tuning.tapForMatch": 2.1 } },
    miss: { figures: { "tuning.tapForMatch": 2.6 } },
    severity: "look",
    path: "tank.bank",
    names: "2.1",
  },
  "match-tap-near-end": {
    hit: { figures: { "tuning.tapForMatch": 7.7 } },
    miss: { figures: { "tuning.tapForMatch": 7.4 } },
    severity: "look",
    path: "primary.turns",
    names: "7.7",
  },
  mistuned: {
    hit: { figures: { "tuning.ratio": 0.97, "tuning.aimRatio": 0.91 } },
    miss: { figures: { "tuning.ratio": 0.92, "tuning.aimRatio": 0.91 } },
    severity: "fix",
    path: "primary.tap",
    names: "6.59 % above",
  },
  "mode-near-harmonic": {
    hit: { figures: { "poles.lower": 250e3, "secondary.f2": 757e3, "secondary.f3": 1.5e6 } },
    miss: { figures: { "poles.lower": 250e3, "secondary.f2": 770e3, "secondary.f3": 1.5e6 } },
    severity: "look",
    path: "topload",
    names: "3 times",
  },
  "nobody-listed": { hit: { edits: { "site.people": "[]" } }, miss: {}, severity: "look", path: "site.people" },
  "object-within-reach": {
    hit: { edits: { "site.objects.0.at": "1 m" } },
    miss: { edits: { "site.objects.0.at": "3 m" } },
    severity: "look",
    path: "site.objects.0.at",
    names: "rod",
  },
  "overcurrent-above-switch": {
    hit: { edits: { "feedback.overcurrent": "210 A" } },
    miss: { edits: { "feedback.overcurrent": "200 A" } },
    severity: "fix",
    path: "feedback.overcurrent",
    names: "210 A",
  },
  "overcurrent-missing": {
    hit: { edits: { "feedback.overcurrent": undefined } },
    miss: {},
    severity: "fix",
    path: "feedback.overcurrent",
  },
  "people-shift-tune": {
    hit: { figures: { "secondary.f1": 300e3, "detuning.person": -1500 } },
    miss: { figures: { "secondary.f1": 300e3, "detuning.person": -1100 } },
    severity: "look",
    path: "site.people",
    names: "0.5 %",
  },
  "person-within-reach": {
    hit: { edits: { "site.people.0.at": "1 m" } },
    miss: { edits: { "site.people.0.at": "4 m" } },
    severity: "stop",
    path: "site.people.0.at",
    names: "789 mm",
  },
  "poles-close": {
    hit: { figures: { "poles.lower": 250e3, "poles.upper": 257e3 } },
    miss: { figures: { "poles.lower": 250e3, "poles.upper": 262e3 } },
    severity: "look",
    path: "primary",
    names: "2.8 %",
  },
  "primary-above-base": {
    hit: { edits: { "primary.baseHeight": "145 mm" } },
    miss: { edits: { "primary.baseHeight": "136 mm" } },
    severity: "look",
    path: "primary.baseHeight",
    names: "25 mm",
  },
  "primary-conductor-hot": {
    hit: { edits: { "primary.conductor": "{ trace: 3 mm x 0.035 mm }" } },
    miss: { edits: { "primary.conductor": "{ tube: 3 mm }" } },
    severity: "fix",
    path: "primary.conductor",
    names: "A/mm²",
  },
  "primary-near-winding": {
    hit: { edits: { "primary.firstTurnDiameter": "99 mm" } },
    miss: { edits: { "primary.firstTurnDiameter": "104 mm" } },
    severity: "fix",
    path: "primary.firstTurnDiameter",
    names: "mm of air",
  },
  "primary-tall": {
    hit: { edits: { "primary.angle": "90°", "primary.pitch": "30 mm" } },
    miss: { edits: { "primary.angle": "90°", "primary.pitch": "26 mm" } },
    severity: "fix",
    path: "primary.baseHeight",
    names: "213 mm",
  },
  "primary-turns-close": {
    hit: { edits: { "primary.pitch": "6.05 mm" } },
    miss: { edits: { "primary.pitch": "6.3 mm" } },
    severity: "fix",
    path: "primary.pitch",
    names: "0.05 mm",
  },
  "q-implausible": {
    hit: { figures: { "secondary.qUnloaded": 800 } },
    miss: { figures: { "secondary.qUnloaded": 600 } },
    severity: "look",
    path: "secondary.wire",
    names: "800",
  },
  "q-low": {
    hit: { figures: { "secondary.qUnloaded": 60 } },
    miss: { figures: { "secondary.qUnloaded": 90 } },
    severity: "look",
    path: "secondary.wire",
    names: "60",
  },
  "rod-not-earthed": {
    hit: { edits: { "site.objects.0.earthed": "false", "site.objects.0.at": "2.5 m" } },
    miss: { edits: { "site.objects.0.earthed": "false", "site.objects.0.at": "6 m" } },
    severity: "fix",
    path: "site.objects.0.earthed",
    names: "2433 mm",
  },
  "room-not-described": {
    hit: { edits: { "site.wall": undefined } },
    miss: {},
    severity: "look",
    path: "site",
    names: "wall",
  },
  "room-shifts-tune": {
    hit: { figures: { "secondary.f1": 300e3 }, detunings: [{ path: "site.wall", says: "wall", shift: -7500 }] },
    miss: { figures: { "secondary.f1": 300e3 }, detunings: [{ path: "site.wall", says: "wall", shift: -4500 }] },
    severity: "look",
    path: "site.wall",
    names: "2.5 %",
  },
  "room-within-reach": {
    hit: { edits: { "site.wall": "1.2 m" } },
    miss: { edits: { "site.wall": "3 m" } },
    severity: "look",
    path: "site.wall",
    names: "1139 mm",
  },
  "standoff-air-closed": {
    hit: { edits: { "show.room.airing": "closed" } },
    miss: { edits: { "show.room.airing": "open" } },
    severity: "fix",
    path: "show.room.airing",
    names: "no air",
  },
  "standoff-breaker-out-of-reach": {
    hit: { edits: { "show.breaker.at": "8.1 m" } },
    miss: { edits: { "show.breaker.at": "7.9 m" } },
    severity: "fix",
    path: "show.breaker",
    names: "1.6",
  },
  "standoff-earth-missing": {
    hit: { edits: { "show.earth": undefined } },
    miss: { edits: { "show.earth.lead": "15 m" } },
    severity: "fix",
    path: "show.earth",
    names: "no earth rod",
  },
  "standoff-exit-missing": {
    hit: { edits: { "show.exit": undefined } },
    miss: {},
    severity: "look",
    path: "show.exit",
    names: "no way out",
  },
  "standoff-hazard-open": {
    hit: { edits: { "show.acknowledged": "[ arc, touch, storedEnergy, mains, noise, air, fire, radio ]" } },
    miss: {},
    severity: "stop",
    path: "show.acknowledged",
    names: "implants",
  },
  "standoff-heart-rates": {
    hit: { edits: { "interrupter.rate": "2 Hz" } },
    miss: { edits: { "interrupter.rate": "5.1 Hz" } },
    severity: "look",
    path: "interrupter.rate",
    names: "2 Hz",
  },
  "standoff-second-missing": {
    hit: { edits: { "show.second": undefined } },
    miss: {},
    severity: "fix",
    path: "show.second",
    names: "no second person",
  },
  "standoff-show-missing": {
    hit: { edits: { show: undefined } },
    miss: {},
    severity: "look",
    path: "site",
    names: "who stands where",
  },
  "standoff-stop-missing": {
    hit: { edits: { "show.deadMan": "false" } },
    miss: {},
    severity: "fix",
    path: "show.deadMan",
    names: "let go",
  },
  "strike-ring-closed": {
    hit: { edits: { "primary.strikeRing.closed": "true" } },
    miss: {},
    severity: "fix",
    path: "primary.strikeRing.closed",
  },
  "strike-ring-misplaced": {
    hit: { edits: { "primary.strikeRing.height": "110 mm" } },
    miss: { edits: { "primary.strikeRing.height": "125 mm" } },
    severity: "fix",
    path: "primary.strikeRing.height",
    names: "10 mm",
  },
  "strike-ring-missing": {
    hit: { edits: { "primary.strikeRing": undefined } },
    miss: { edits: { "primary.strikeRing": undefined, "feedback.overcurrent": "20 A" } },
    severity: "look",
    path: "primary",
    names: "586 mm",
  },
  "strike-ring-near-primary": {
    hit: { edits: { "primary.strikeRing.height": "124 mm" } },
    miss: { edits: { "primary.strikeRing.height": "140 mm" } },
    severity: "fix",
    path: "primary.strikeRing.height",
    names: "7.601 mm",
  },
  "strike-ring-not-earthed": {
    hit: { edits: { "primary.strikeRing.earthed": "false" } },
    miss: {},
    severity: "stop",
    path: "primary.strikeRing.earthed",
  },
  "tank-above-secondary": {
    hit: { figures: { "tuning.ratio": 1.02 } },
    miss: { figures: { "tuning.ratio": 0.99 } },
    severity: "look",
    path: "primary.tap",
    names: "1.02",
  },
  "top-load-high": {
    hit: { edits: { "topload.0.toroid.height": "740 mm" } },
    miss: { edits: { "topload.0.toroid.height": "724 mm" } },
    severity: "look",
    path: "topload",
    names: "36 mm",
  },
  "top-load-low": {
    hit: { edits: { "topload.0.toroid.outerDiameter": "160 mm", "topload.0.toroid.height": "690 mm" } },
    miss: { edits: { "topload.0.toroid.outerDiameter": "160 mm", "topload.0.toroid.height": "705 mm" } },
    severity: "look",
    path: "topload",
    names: "14 mm",
  },
  "top-load-missing": {
    hit: { edits: { topload: "[]" } },
    miss: {},
    severity: "fix",
    path: "topload",
    names: "696 mm",
  },
  "top-load-narrow": {
    hit: { edits: { "topload.0.toroid.outerDiameter": "110 mm" } },
    miss: { edits: { "topload.0.toroid.outerDiameter": "118 mm" } },
    severity: "look",
    path: "topload",
    names: "110 mm",
  },
  "toroid-proportions": {
    hit: { edits: { "topload.0.toroid.tubeDiameter": "14 mm" } },
    miss: { edits: { "topload.0.toroid.tubeDiameter": "17 mm" } },
    severity: "look",
    path: "topload.0.toroid.tubeDiameter",
    names: "14 mm",
  },
  "turns-discharge": {
    hit: { figures: { "winding.turnVoltagePerVolt": 0.006 } },
    miss: { figures: { "winding.turnVoltagePerVolt": 0.004 } },
    severity: "fix",
    path: "secondary.turns",
    names: "759 V",
  },
  "turns-few": {
    hit: { edits: { "secondary.turns": "240" } },
    miss: { edits: { "secondary.turns": "260" } },
    severity: "look",
    path: "secondary.turns",
    names: "240",
  },
  "turns-many": {
    hit: { edits: { "secondary.turns": "2300", "secondary.wire": "{ bare: 0.2 mm, overall: 0.23 mm }" } },
    miss: { edits: { "secondary.turns": "2100", "secondary.wire": "{ bare: 0.2 mm, overall: 0.23 mm }" } },
    severity: "look",
    path: "secondary.turns",
    names: "2300",
  },
  "voltage-not-bounded": {
    hit: { edits: { "feedback.overcurrent": undefined, interrupter: undefined } },
    miss: { edits: { "feedback.overcurrent": undefined } },
    severity: "look",
    path: "feedback",
  },
  "winding-end-breaks-out": {
    hit: { figures: { "topload.peakFieldPerVolt": 0.5 } },
    miss: { figures: { "topload.peakFieldPerVolt": 8 } },
    severity: "fix",
    path: "topload",
    names: "0.5/m",
  },
  "winding-loose": {
    hit: { edits: { "secondary.turns": "1300" } },
    miss: { edits: { "secondary.turns": "1400" } },
    severity: "look",
    path: "secondary.turns",
    names: "75.6 %",
  },
  "winding-loss-by-proximity": {
    hit: { figures: { "secondary.resistanceDc": 50, "secondary.resistanceAc": 300 } },
    miss: { figures: { "secondary.resistanceDc": 50, "secondary.resistanceAc": 240 } },
    severity: "look",
    path: "secondary.wire",
    names: "6 times",
  },
  "winding-nearly-full": {
    hit: { edits: { "secondary.length": "540 mm" } },
    miss: { edits: { "secondary.length": "545 mm" } },
    severity: "look",
    path: "secondary.length",
    names: "99.3 %",
  },
  "winding-resistance-high": {
    hit: { figures: { "secondary.resistanceDc": 1000 } },
    miss: { figures: { "secondary.resistanceDc": 300 } },
    severity: "look",
    path: "secondary.wire",
    names: "1 kΩ",
  },
  "winding-slender": {
    hit: { edits: { "secondary.length": "590 mm", "topload.0.toroid.height": "723 mm" } },
    miss: { edits: { "secondary.length": "584 mm", "topload.0.toroid.height": "717 mm" } },
    severity: "look",
    path: "secondary.length",
    names: "6.56",
  },
  "winding-stocky": {
    hit: { edits: { "secondary.length": "220 mm", "secondary.turns": "600" } },
    miss: { edits: { "secondary.length": "226 mm", "secondary.turns": "600" } },
    severity: "look",
    path: "secondary.length",
    names: "2.44",
  },
  "winding-stress-along": {
    hit: { figures: { "winding.peakFieldPerVolt": 3 } },
    miss: { figures: { "winding.peakFieldPerVolt": 2.2 } },
    severity: "look",
    path: "secondary.length",
    names: "kV/cm",
  },
  "wire-hair-thin": {
    hit: { edits: { "secondary.wire": "{ bare: 0.08 mm, overall: 0.1 mm }" } },
    miss: { edits: { "secondary.wire": "{ bare: 0.1 mm, overall: 0.12 mm }" } },
    severity: "look",
    path: "secondary.wire",
    names: "0.08 mm",
  },
  "wire-thick-for-skin": {
    hit: { figures: { "secondary.f1": 2e6 } },
    miss: { figures: { "secondary.f1": 1.5e6 } },
    severity: "look",
    path: "secondary.wire",
    names: "0.3 mm",
  },
};
