/** The usual cautions, each of them for every coil, with what this coil's numbers say to them. */

import type { Coil } from "../description/coil.ts";
import { formatQuantity } from "../units/format.ts";
import { keepOff } from "./keep-off.ts";
import type { Caution, StandoffNoise } from "./standoff-contract.ts";

/** What the cautions are filled in with. */
export interface CautionNumbers {
  readonly reach?: number;
  readonly audience?: number;
  readonly power?: number;
  readonly emission?: { readonly field: number; readonly limit: number };
  readonly noise?: StandoffNoise;
  readonly lengths?: "m" | "in";
}

export function cautionsFor(coil: Coil, numbers: CautionNumbers): readonly Caution[] {
  const { reach, audience, power, emission, noise, lengths } = numbers;
  const rate = coil.interrupter?.rate;
  const twice =
    reach === undefined
      ? "twice the reach"
      : `${keepOff(2 * reach, lengths)} of where the arc may leave, twice the reach`;
  return [
    {
      id: "line",
      title: "Nobody inside the line",
      says: [
        audience === undefined
          ? "No line can be computed from this file: nobody but the operator in the room until there is one."
          : `Bystanders behind a barrier at ${keepOff(audience, lengths)} or more from the axis; a rope that can be leaned over is no barrier.`,
        "Nobody touches the arc, the coil, or a metal thing held toward it.",
      ],
      source: "stand-off-practice",
    },
    {
      id: "implants",
      title: "Implants and worn devices",
      says: [
        "No wearer of a pacemaker, defibrillator, nerve stimulator, insulin pump or cochlear implant in the room without their doctor's word; no distance is computed.",
        "Ask aloud before every show, and write it at the door.",
        ...(rate !== undefined && rate <= 5
          ? ["Bursts at heart-like rates, as set here, are the worst for what senses a heart."]
          : ["Songs with slow beats and pauses, about one to three a second, are the worst for what senses a heart."]),
      ],
      source: "implant-makers",
    },
    {
      id: "hearing-aids",
      title: "Hearing aids",
      says: ["Hearing aids are taken out and put away: they pick the bursts up and give them to the ear, or fail."],
      source: "common-practice",
    },
    {
      id: "pregnancy",
      title: "Pregnancy",
      says: ["Whether to be there is for the doctor: no figure here answers it."],
      source: "common-practice",
    },
    {
      id: "children",
      title: "Children",
      says: [
        "Children stay behind the line with an adult whose hand is on them; none of them holds, throws or switches anything.",
      ],
      source: "common-practice",
    },
    {
      id: "pets",
      title: "Animals",
      says: ["Animals stay out: they bolt at the noise, hear more of it, and do not keep a line."],
      source: "common-practice",
    },
    {
      id: "hearing",
      title: "Hearing",
      says: [
        "Hearing protection for the operator and the first rows, always.",
        noise === undefined
          ? "No level can be estimated from this file."
          : `About ${level(noise.levelAt1m.value)} at 1 m, ${level(noise.levelAt1m.low)} to ${level(noise.levelAt1m.high)}; peaks lie some ${formatQuantity(noise.crest, "1", { digits: 2, trim: true })} dB above that, and 140 dB peak is the published ceiling.`,
        ...(noise?.timeToFullDose === undefined
          ? []
          : [`At the line a day's dose is full after ${duration(noise.timeToFullDose.low)} at the loud end.`]),
      ],
      source: "niosh-98-126",
    },
    {
      id: "ozone",
      title: "Ozone and nitrogen oxides",
      says: [
        power === undefined
          ? "What the sparks take is not known from this file."
          : `The sparks take up to ${formatQuantity(power, "W", { digits: 2 })}, that is ${formatQuantity(power * 3600, "J", { digits: 2 })} in an hour: all of it goes into the air of the room.`,
        "What an open arc makes of it is not known well enough for a concentration: corona makes most ozone, hot arcs more nitrogen oxides.",
        "Change the air, take breaks, and stop at a sharp smell: 0.1 ppm of ozone is the published line of workplaces, and the nose gets used to it.",
      ],
      source: "air-gases",
    },
    {
      id: "ultraviolet",
      title: "Light",
      says: [
        "Arcs give some ultraviolet: do not stare into them near by, and wear glasses at the bench.",
        "Flashes can set off a seizure: warn before the show.",
        "Evacuated bulbs and tubes near the coil can give X-rays: none of them in its field.",
      ],
      source: "common-practice",
    },
    {
      id: "fire",
      title: "Fire",
      says: [
        `No gas, solvent, aerosol, dust, balloon, fog fluid, curtain or paper within ${twice}.`,
        "A carbon dioxide extinguisher in the second person's reach; look at the coil again half an hour after the last burst.",
      ],
      source: "common-practice",
    },
    {
      id: "smoke-detectors",
      title: "Smoke detectors, sprinklers, alarms",
      says: [
        "They are earthed targets, and bursts set them off: tell the venue before, agree who watches for fire while they are off, and switch them on again.",
      ],
      source: "common-practice",
    },
    {
      id: "phones",
      title: "Phones, computers, cards",
      says: [
        "Phones, cameras, microphones, car keys and magnetic cards are kept far off or switched off; near the coil they fail for good.",
      ],
      source: "common-practice",
    },
    {
      id: "metal",
      title: "Metal nearby",
      says: [
        "Rails, tripods, instruments and roof trusses that are not bonded take a charge and shock at a touch: list, bond, or move them.",
      ],
      source: "charges-and-images",
    },
    {
      id: "radio",
      title: "Radio and licences",
      says: [
        emission === undefined
          ? "What it radiates cannot be computed from this file."
          : `Unscreened, about ${formatQuantity(emission.field, "V/m", { digits: 2 })} at 300 m, beside ${formatQuantity(emission.limit, "V/m", { digits: 2 })} of 47 CFR 15.209, as quoted.`,
        "An unscreened coil cannot be presumed to meet emission limits. It must not cause harmful interference and stops when asked; rules and licences differ by country and by use.",
        "A screened room, short runs, a mains filter and a word with neighbours and the authority are usual. Near an airfield, hospital or navigation site do not run without asking.",
      ],
      source: "fcc-15-209",
    },
    {
      id: "earth",
      title: "Earth",
      says: [
        "The coil's foot, strike ring and rods go to an earth rod or plate of their own by a short wide lead, bonded and tested.",
        "The mains earth is no return for sparks; no resistance of a rod and no residual-current device answers for a spark to a person.",
      ],
      source: "common-practice",
    },
    {
      id: "first-aid",
      title: "First aid",
      says: [
        "Power off first: breaker or plug, then touch. Nobody touches a person who is still in the circuit.",
        "Call the local emergency number: write it on the sheet with the address of the venue. Resuscitate and fetch the defibrillator, as taught.",
        "Every shock above a tingle and every burn goes to a doctor: heart and deep burns show late.",
      ],
      source: "first-aid-practice",
    },
    {
      id: "codes",
      title: "Local codes and licensed practice",
      says: [
        "Local law, wiring and fire rules, the venue's rules, and licensed electricians, doctors and radio authorities come first.",
        "The figures here are estimates with stated intervals: they replace none of them.",
      ],
      source: "common-practice",
    },
  ];
}

const level = (value: number) => formatQuantity(value, "dB(A)", { digits: 3 });
/** Long times in the words of a day. */
function duration(seconds: number): string {
  if (seconds >= 24 * 3600) return "more than a day";
  if (seconds >= 2 * 3600) return `${formatQuantity(seconds / 3600, "1", { digits: 2, trim: true })}\u00a0h`;
  if (seconds >= 120) return `${formatQuantity(seconds / 60, "1", { digits: 2, trim: true })}\u00a0min`;
  return formatQuantity(seconds, "s", { digits: 2, trim: true });
}

export const closingWords =
  "High voltage, radio-frequency burns, mains and stored energy that can kill. The figures are estimates with stated intervals, and none is a permission. They replace no electrician, no doctor, no venue rule, no law.";
