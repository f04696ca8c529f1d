/** Stages with a bus: low, tune, overcurrent, first breakout, full. */
import type { BringUpContext } from "./bringup.ts";
import type { LowBurst, Range } from "./bringup-bursts.ts";
import { expected, shown } from "./bringup-cold.ts";
import type { BringUpStage, BringUpStep, Expectation } from "./bringup-contract.ts";
import {
  burstPicture,
  busPicture,
  crossingPicture,
  studyPicture,
  tapPicture,
  tripPicture,
} from "./bringup-pictures.ts";
import { study as studyOf } from "./burst-stage.ts";

/** How far apart a reading and a prediction may lie before a low bus is left, in parts. Common practice, no source. */
const usual = { lowCurrent: 0.15, current: 0.2, frequency: 0.01, trip: 0.1, mains: 0.25 };

export function poweredStages(context: BringUpContext): readonly BringUpStage[] {
  return [
    lowBusStage(context),
    tuneStage(context),
    overcurrentStage(context),
    breakoutStage(context),
    fullStage(context),
  ];
}

/** At least as wide as the meter and the model's own simplifications. */
function between(unit: string, { value, low, high }: Range, within: number, from: readonly string[]): Expectation {
  return { unit, value, low: Math.min(low, value * (1 - within)), high: Math.max(high, value * (1 + within)), from };
}

function lowBusStage({ low, study }: BringUpContext): BringUpStage {
  return {
    id: "low-bus",
    title: "Low bus, through an isolating transformer and a lamp",
    connect: [
      "An isolating transformer, a variable one behind it, a lamp of 40 to 100 W in series with the bus, current limited.",
      "Current transformer to the oscilloscope; the pickup at its farthest place.",
      "The interrupter at its shortest burst and a few hertz. Everybody behind the line.",
    ],
    touches: true,
    missing: low.length > 0 ? [] : study.missing.map(({ path, says }) => `${path}: ${says}`),
    steps: low.flatMap((burst, n) => lowSteps(burst, n)),
  };
}

function lowSteps(burst: LowBurst, n: number): readonly BringUpStep[] {
  const { bus, catches, peakCurrent, frequency } = burst;
  const current: BringUpStep = {
    id: `low-current-${n}`,
    does: catches
      ? "Raise the bus to this step, give one burst, and read the greatest primary current."
      : "Raise the bus to this step, give one burst. The predicted current is too small for the comparator: one kick, no run.",
    probe: "current transformer",
    bus,
    expects: between("A", peakCurrent, usual.lowCurrent, ["burst.peakPrimaryCurrent", "supply"]),
    ...shown(burstPicture(burst)),
    picture: catches
      ? "grows from half-cycle to half-cycle, smooth, and falls off after the burst"
      : "one half-cycle and its ringing",
    stop: "the lamp stays bright, the bus sags for good, or the current does not grow: switch off and look before the next burst",
    differs: [
      "the sense is reversed: current small, many times too fast",
      "the tap or the capacitor is not as drawn",
      "a switch that does not switch: half of the current",
      "the bus is not what the meter says",
    ],
  };
  if (!frequency) return [current];
  return [
    current,
    {
      id: `low-frequency-${n}`,
      does: "Read the frequency of the current while it is driven.",
      probe: "current transformer",
      bus,
      expects: between("Hz", frequency, usual.frequency, ["burst.frequency"]),
      ...shown(crossingPicture(burst)),
      picture: "zero crossings of current and bridge together, the bridge a little early",
      stop: "a frequency several times higher: the feedback has caught its own edges",
      differs: [
        "it runs on the other pole: look at the lead and the first half-cycle",
        "tank or f1 off: go back to the sweep",
      ],
    },
  ];
}

function tuneStage({ solution, low }: BringUpContext): BringUpStage {
  const tap = solution.figures.get("tuning.tapForMatch");
  const highest = low.at(-1);
  const bus = highest?.bus ?? 0;
  return {
    id: "tune",
    title: "Tune, at low bus",
    connect: ["As before. For every move of the tap: off, discharged, shorted, tank shorted, then move."],
    touches: true,
    missing: tap ? [] : ["primary and tank: no tune to search"],
    steps: tap
      ? [
          {
            id: "tap-search",
            does: "Move the tap by a quarter turn about this place, one burst each, and note the pickup's greatest amplitude.",
            probe: "pickup",
            bus,
            ...expected(tap, 0.04),
            ...shown(
              highest?.catches ? tapPicture({ solution, bus, onTime: highest.onTime, about: tap.value }) : undefined,
            ),
            picture:
              "the amplitude has one flat top; the aim stands a little below it in frequency, for the streamer pulls f1 down",
            stop: "the current is higher than at the step before by more than a quarter",
            differs: [
              "lamp, rod or hand near the top",
              "the streamer's length is another than the aim's",
              "leads of the tank longer than drawn",
            ],
          },
          {
            id: "record",
            does: "At the tap that stays, save one record and give it to: coilwright match",
            probe: "current transformer, pickup, interrupter, on three channels",
            bus,
            ...shown(highest && burstPicture(highest)),
            picture: "the whole burst with its ring-down, a tenth of the record before it",
            stop: "a cause called likely that has not been looked at",
            differs: [],
          },
        ]
      : [],
  };
}

function overcurrentStage({ solution, study, low }: BringUpContext): BringUpStage {
  const limit = solution.coil.feedback?.overcurrent;
  const trip = study.figures.get("feedback.tripVoltage");
  const highest = low.at(-1);
  const bus = highest?.bus ?? 0;
  return {
    id: "overcurrent",
    title: "Overcurrent, set and tried",
    connect: ["As before, at the highest of the low steps."],
    touches: true,
    missing: limit === undefined ? ["feedback.overcurrent: no trip in the file. Do not go on without one"] : [],
    steps: [
      ...(trip
        ? [
            {
              id: "trip-level",
              does: "Set the trip's reference.",
              probe: "meter at the comparator's reference",
              bus: 0,
              ...expected(trip, usual.trip),
              picture: "steady while the rails are loaded",
              stop: "it moves with the burst",
              differs: ["another burden than drawn", "the trip listens to a divider of the burden"],
            },
          ]
        : []),
      {
        id: "trip-works",
        does: "Lower the reference until a burst at this bus trips, and see that it ends the burst and that the next one comes. Then set it back.",
        probe: "current transformer and gates",
        bus,
        ...(highest
          ? { expects: between("A", highest.peakCurrent, usual.lowCurrent, ["burst.peakPrimaryCurrent"]) }
          : {}),
        ...shown(highest?.catches ? tripPicture(highest) : undefined),
        picture: "the burst is cut at a zero of the current, within a cycle of the level",
        stop: "it does not trip: do not go on",
        differs: ["reference or polarity of the trip's comparator", "the trip's output is not in the gates' path"],
      },
    ],
  };
}

function breakoutStage({ solution, study, low }: BringUpContext): BringUpStage {
  const inception = solution.figures.get("topload.breakoutVoltage");
  const burst = low.at(-1);
  const perVolt = burst?.catches ? burst.topVoltage.value / burst.bus : undefined;
  const full = study.setting.busVoltage;
  const at = (volts: number) => (perVolt ? volts / perVolt : 0);
  return {
    id: "breakout",
    title: "First breakout",
    connect: [
      "Lamp out, fuse in, the isolating and the variable transformer stay. A breakout point on the top load.",
      "Everything that a streamer may reach is earthed or gone. Pickup at the distance for the full bus.",
    ],
    touches: true,
    missing:
      inception && perVolt
        ? []
        : [
            burst && !burst.catches
              ? "no step at a low bus runs by itself: no breakout to predict"
              : "top load and bridge: no breakout to predict",
          ],
    steps:
      inception && perVolt
        ? [
            {
              id: "breakout-bus",
              does: "Raise the bus in steps of a tenth, one burst each, until the point first shows a streamer. A point breaks out earlier than the smooth top load that this is reckoned for.",
              probe: "eyes in the dark, from behind the line",
              bus: Math.min(full, at(inception.value)),
              expects: {
                unit: "V",
                value: at(inception.value),
                low: at(0.3 * (inception.low ?? inception.value)),
                high: at(1.15 * (inception.high ?? inception.value)),
                from: ["topload.breakoutVoltage", "burst.peakTopVoltage"],
              },
              ...shown(
                studyPicture(
                  studyOf(
                    solution.coil,
                    solution,
                    { busVoltage: Math.min(full, 1.1 * at(inception.value)), rate: 0 },
                    { waveforms: true },
                  ),
                ),
              ),
              picture: "a brush at the point; the current's envelope loses its beat",
              stop: "light anywhere else than at the point: on the winding, at the primary, at the strike ring",
              differs: [
                "dust or an edge on the top load: earlier",
                "mistuned: later or never",
                "a longer burst breaks out at a lower bus",
              ],
            },
          ]
        : [],
  };
}

/** Of mains and wiring. Common practice, no source. */
const mainsResistance = 0.5;

function fullStage({ solution, study }: BringUpContext): BringUpStage {
  const figure = (id: string) => study.figures.get(id);
  const bus = study.setting.busVoltage;
  const { supply } = solution.coil;
  const { each = 0, series = 1, parallel = 1, esr = 0 } = supply?.capacitors ?? {};
  const filled =
    supply &&
    busPicture({
      study,
      frequency: supply.mains.frequency,
      resistance: mainsResistance + esr,
      // The halves of a doubler are in series across the bus.
      capacitance: (each * parallel) / (series * (supply.rectifier === "doubler" ? 2 : 1)),
    });
  const steps: readonly BringUpStep[] = [
    {
      id: "full-current",
      does: "At the full bus, from the shortest burst up to the on-time in steps of a fifth, read the greatest primary current.",
      probe: "current transformer",
      bus,
      ...expected(figure("burst.peakPrimaryCurrent"), usual.current),
      ...shown(studyPicture(studyOf(solution.coil, solution, {}, { waveforms: true }))),
      picture: "as predicted in the room Burst; a trip that speaks at every burst is a finding, not a limit to run at",
      stop: "above the interval, or growing from burst to burst",
      differs: ["the streamer loads the top more or less than the model", "mistuned", "bus higher than thought"],
    },
    {
      id: "full-bus",
      does: "Watch the bus while it runs at a few bursts a second.",
      probe: "differential probe rated for the bus",
      bus,
      ...expected(figure("bus.voltage"), 0.1),
      ...shown(filled),
      picture: "sags by each burst and comes back before the next",
      stop: "it does not come back",
      differs: ["a bus capacitor that has dried out", "rectifier as doubler or bridge, other than drawn"],
    },
    {
      id: "full-mains",
      does: "Raise the rate to the setting, and read the mains current.",
      probe: "clamp meter of true root mean square",
      bus,
      ...expected(figure("mains.currentRms"), usual.mains),
      ...shown(filled),
      picture: "short pulses at the mains' peaks",
      stop: "the plug, the fuse holder or a lead grows warm",
      differs: ["more streamer than predicted", "a leaking capacitor"],
    },
    {
      id: "full-reach",
      does: "Mark where the longest streamer ends, from a photograph with a scale in it.",
      probe: "camera on a stand",
      bus,
      ...expected(figure("burst.streamerLength"), 0.3),
      picture: "branches from the point; the reach that counts for the line is the upper end",
      stop: "a strike to anything that is not meant for it",
      differs: ["repetition rate: channels grow on their own heat", "draughts, humidity"],
    },
  ];
  const known = steps.filter(({ expects }) => expects !== undefined);
  return {
    id: "full",
    title: "Full bus",
    connect: [
      "Mains, fuse and inrush limiter as drawn. No lamp, no probe that the streamer may reach.",
      "Stop after every step, discharge, and touch nothing but to look for what is warm.",
    ],
    touches: true,
    missing: known.length > 0 ? [] : study.missing.map(({ path, says }) => `${path}: ${says}`),
    steps: known,
  };
}
