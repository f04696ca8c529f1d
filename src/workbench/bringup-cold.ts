/** Stages without a bus: parts, earth, rails, gates, and the sweep without power. */
import type { Figure } from "../catalogue/figure.ts";
import type { BringUpContext } from "./bringup.ts";
import type { BringUpStage, BringUpStep, Expectation, ExpectedPicture } from "./bringup-contract.ts";
import { gateEdgePicture, gatePicture, railPicture, sensePicture, sweepPicture } from "./bringup-pictures-cold.ts";

/** Half-widths where the file knows no better, in parts. Common practice, no source. */
const usual = { meter: 0.02, resistance: 0.05, rail: 0.05, gate: 0.1, sweep: 0.01 };

export function expectation(
  unit: string,
  value: number,
  { within, from }: { within: number; from: readonly string[] },
): { readonly expects: Expectation } {
  const half = Math.abs(value) * within;
  return { expects: { unit, value, low: value - half, high: value + half, from } };
}

/** What a figure should read on a meter, at least as wide as the meter. */
export function expected(figure: Figure | undefined, within: number): { readonly expects?: Expectation } {
  if (!figure) return {};
  const { id, value, unit } = figure;
  const half = Math.abs(value) * within;
  return {
    expects: {
      unit,
      value,
      low: Math.min(value - half, figure.low ?? value),
      high: Math.max(value + half, figure.high ?? value),
      from: [id],
    },
  };
}

export function coldStages(context: BringUpContext): readonly BringUpStage[] {
  return [partsStage(context), earthStage(context), railsStage(context), gatesStage(context), sweepStage(context)];
}

const step = (parts: Omit<BringUpStep, "bus"> & { readonly bus?: number }): BringUpStep => ({ bus: 0, ...parts });

/** The key only where there is a picture. */
export const shown = (picture: ExpectedPicture | undefined): { readonly shows?: ExpectedPicture } =>
  picture ? { shows: picture } : {};

function toleranceOf({ file }: BringUpContext, path: string, value: number, least: number): number {
  const tolerance = file.provenances.get(path)?.tolerance ?? 0;
  return Math.max(least, value !== 0 ? tolerance / Math.abs(value) : least);
}

function partsStage(context: BringUpContext): BringUpStage {
  const { solution } = context;
  const { tank, supply } = solution.coil;
  const bleeder = supply?.capacitors.bleeder;
  return {
    id: "parts",
    title: "Parts, before any power",
    connect: ["Nothing. The plug lies where you can see it."],
    touches: true,
    missing: [],
    steps: [
      step({
        id: "orientation",
        does: "Go over every part with the drawing: switches and diodes the right way round, electrolytics by their polarity, current transformers by their dot, no washer bridging two busbars.",
        probe: "eyes, and the diode range of a meter across each switch",
        picture: "each switch reads as one diode, the same in all of them, and open the other way",
        stop: "a part that reads short both ways, or unlike its neighbours",
        differs: [
          "a switch that failed before",
          "two legs swapped",
          "a gate left open: short it to its emitter and read again",
        ],
      }),
      step({
        id: "bank",
        does: "Measure the tank capacitor at its terminals, the primary lifted off.",
        probe: "capacitance meter",
        ...(tank
          ? expected(
              solution.figures.get("tank.capacitance"),
              toleranceOf(context, "tank.bank.each", tank.bank.each, usual.meter),
            )
          : {}),
        picture: "the same at both ranges of the meter",
        stop: "less than one string would give, or a reading that drifts",
        differs: ["a capacitor open or shorted", "series and parallel mixed up", "another value soldered in"],
      }),
      step({
        id: "secondary-resistance",
        does: "Measure the secondary from its base to its top.",
        probe: "ohmmeter, leads zeroed",
        ...expected(solution.figures.get("secondary.resistanceDc"), usual.resistance),
        picture: "steady, and the same after a tap on the former",
        stop: "open, or below the interval",
        differs: [
          "turns shorted: below",
          "a broken or badly soldered end: above or unsteady",
          "another wire than drawn",
          "warm copper: 0.4 % a kelvin",
        ],
      }),
      ...(bleeder === undefined
        ? []
        : [
            step({
              id: "bleeder",
              does: "Measure across the bus, both ways, after it has been shorted.",
              probe: "ohmmeter",
              ...expectation("Ω", bleeder * (supply?.capacitors.series ?? 1), {
                within: 0.1,
                from: ["supply.capacitors.bleeder"],
              }),
              picture: "rises while the capacitors charge, then stays at the bleeder's value",
              stop: "never comes to rest, or far above: a bleeder that is open leaves the bus charged",
              differs: ["a bleeder open", "a capacitor leaking: far below"],
            }),
          ]),
    ],
  };
}

function earthStage({ solution }: BringUpContext): BringUpStage {
  const ring = solution.coil.primary?.strikeRing;
  return {
    id: "earth",
    title: "Earth, and the discharge stick",
    connect: ["The strap from the secondary's base to its rod; protective earth to case and heatsink."],
    touches: true,
    missing: [],
    steps: [
      step({
        id: "earth-continuity",
        does: "Measure from the secondary's base to the rod, and from case and heatsink to the pin of the plug.",
        probe: "ohmmeter, leads zeroed",
        expects: { unit: "Ω", value: 0.1, low: 0, high: 0.5, from: [] },
        picture: "steady while the lead is moved",
        stop: "anything that changes when the lead is moved",
        differs: ["paint or oxide under a lug", "a lead broken inside its insulation"],
      }),
      ...(ring
        ? [
            step({
              id: "strike-ring",
              does: "Look for the strike ring's gap, and measure from the ring to the strap.",
              probe: "eyes and ohmmeter",
              picture: ring.closed
                ? "the file says that it is closed: a shorted turn"
                : "one gap, earthed at one point",
              stop: ring.closed
                ? "a ring that is meant to be open and is not"
                : "a clamp or a bolt that bridges the gap",
              differs: ["a metal bracket across the gap"],
            }),
          ]
        : []),
      step({
        id: "discharge-stick",
        does: "Try the discharge stick: its resistor, its clip, its insulation, and reach from where you will stand.",
        probe: "ohmmeter",
        picture: "the resistor's value from tip to clip",
        stop: "open: then it discharges nothing, without a sign",
        differs: ["a cracked resistor", "a broken lead"],
      }),
    ],
  };
}

function railsStage({ solution, study }: BringUpContext): BringUpStage {
  const { supply } = solution.coil;
  const control = supply?.control;
  const trough = study.figures.get("control.trough")?.value;
  const load = study.figures.get("control.load")?.value;
  return {
    id: "rails",
    title: "Control rails, the bridge's bus disconnected",
    connect: [
      "The control transformer alone. The bus leads are off and shorted, the gates connected.",
      "The interrupter off.",
    ],
    touches: true,
    missing: control ? [] : ["supply.control: no rails in the file, so no voltages here"],
    steps: (control?.rails ?? []).map(({ volts, dropout }, n) =>
      step({
        id: `rail-${n}`,
        does: `Switch on, and measure rail ${n + 1} at the driver, then look at its ripple.`,
        probe: "meter, then the oscilloscope a.c. coupled, ground clip at the control common",
        ...expectation("V", volts, { within: usual.rail, from: [`supply.control.rails.${n}.volts`] }),
        picture: headroomPicture(study.figures.get(`control.rail.${n + 1}.headroom`)?.value),
        ...shown(
          control && supply && trough !== undefined && load !== undefined
            ? railPicture({
                volts,
                dropout,
                trough,
                load,
                reservoir: control.reservoir,
                mains: supply.mains.frequency,
              })
            : undefined,
        ),
        stop: "no voltage within a second, anything warm to the nose, or ripple of a tenth of a volt",
        differs: ["a regulator the wrong way round", "too little headroom at low mains", "a short at the load"],
      }),
    ),
  };
}

const headroomPicture = (headroom: number | undefined): string =>
  headroom !== undefined && headroom < 0
    ? "twice the mains frequency shows through: by the file the rail has no headroom at low mains"
    : "flat, without twice the mains frequency on it";

function gatesStage({ solution, study }: BringUpContext): BringUpStage {
  const { bridge, feedback, interrupter } = solution.coil;
  const lower = solution.figures.get("poles.lower");
  const rise = study.figures.get("gate.riseTime");
  const drive = bridge?.gate.drive;
  return {
    id: "gates",
    title: "Gates, without a bus",
    connect: [
      "A signal generator at the lower pole into the feedback input, through the turns of the sense transformer or in its place; the interrupter at its shortest burst and a few hertz.",
      "No bus: its leads off and shorted.",
    ],
    touches: true,
    missing: bridge && feedback ? [] : ["bridge and feedback: no gate drive in the file"],
    steps:
      drive === undefined
        ? []
        : [
            step({
              id: "gate-voltage",
              does: "Look at each gate against its own emitter, one after the other.",
              probe: "oscilloscope on one gate alone, or a differential probe; never two ground clips on two emitters",
              ...expectation("V", drive, { within: usual.gate, from: ["bridge.gate.drive"] }),
              ...shown(bridge && lower ? gatePicture(bridge, { frequency: lower.value, both: false }) : undefined),
              picture: `square, from plus to minus drive, ${interrupter ? "for the on-time and then at rest" : "steady"}, no ringing past a fifth of the drive`,
              stop: "a gate that rests above zero between bursts, or swings past the switch's gate rating",
              differs: [
                "a gate resistor of another value",
                "a saturated gate transformer: the top of the square droops",
                "leads too long: ringing",
              ],
            }),
            step({
              id: "gate-rise",
              does: "Spread the rising edge.",
              probe: "as before",
              ...expected(rise, 0.5),
              ...shown(bridge && rise ? gateEdgePicture(bridge, rise.value) : undefined),
              picture: "one step with the shelf of the gate's charge in it",
              stop: "an edge slower than the dead time",
              differs: [
                "the gate's charge is not the data sheet's",
                "leakage of the gate transformer",
                "a weak driver",
              ],
            }),
            step({
              id: "gate-polarity",
              does: "Look at the two sides of the bridge together, each by its own differential probe, and compare with the input.",
              probe: "two differential probes; the second trace inverted is wrong, not clever",
              ...shown(bridge && lower ? gatePicture(bridge, { frequency: lower.value, both: true }) : undefined),
              picture:
                "one up while the other is down, both down for the dead time; in a full bridge the diagonal pairs alike",
              stop: "both sides up at once, for however short a time: do not go on",
              differs: ["a winding of the gate transformer the other way round", "dead time not set"],
            }),
            step({
              id: "sense-polarity",
              does: "Note which way the comparator answers the generator, with the sense transformer's dot as drawn.",
              probe: "comparator output and generator",
              ...(lower ? expectation("Hz", lower.value, { within: usual.sweep, from: ["poles.lower"] }) : {}),
              ...shown(lower ? sensePicture(solution.coil, lower.value) : undefined),
              picture: "the bridge's output follows the sense current, advanced by the lead less the delay",
              stop: "none; whether the sense is reversed shows only at low bus",
              differs: ["sense leads the other way round", "the burden not fitted"],
            }),
          ],
  };
}

function sweepStage({ solution }: BringUpContext): BringUpStage {
  const figure = (id: string) => solution.figures.get(id);
  const poles = figure("poles.lower") !== undefined;
  return {
    id: "sweep",
    title: "Where it rings, without power",
    connect: [
      "The bridge's output shorted at the tank, the bus off and shorted. A signal generator into one turn of wire beside the primary, a wire as antenna a metre off.",
      "Take frequency and amplitude down as a table, and give it to: coilwright match",
    ],
    touches: true,
    missing: [],
    steps: [
      ...(poles
        ? (["lower", "upper"] as const).map((which) =>
            step({
              id: `pole-${which}`,
              does: `Find the ${which} of the two peaks.`,
              probe: "oscilloscope on the antenna",
              ...expected(figure(`poles.${which}`), usual.sweep),
              ...shown(sweepPicture(solution, { tank: "shorted" })),
              picture: "two peaks with a valley between; a hand near the top moves both down",
              stop: "only one peak: primary open, or the short at the bridge is missing",
              differs:
                which === "lower"
                  ? ["the tank: capacitor, tap, leads", "top load or surroundings"]
                  : ["f1: top load, turns, surroundings", "coupling: both poles farther apart or nearer"],
            }),
          )
        : []),
      step({
        id: "f1",
        does: "Open the tank, and find the single peak that is left.",
        probe: "as before",
        ...expected(figure("secondary.f1"), usual.sweep),
        ...shown(sweepPicture(solution, { tank: "open" })),
        picture: "one narrow peak",
        stop: "a broad or a double peak: a shorted turn, or a loss",
        differs: ["top load height", "somebody or something near", "turns", "a shorted turn: higher and broad"],
      }),
    ],
  };
}
