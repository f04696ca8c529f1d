/** The checklist of a show day, made for this coil: two people, one does, one reads and watches. */

import type { Coil } from "../description/coil.ts";
import { formatQuantity } from "../units/format.ts";
import { type LengthWords, lengthWords } from "./keep-off.ts";
import type { ChecklistItem, ChecklistPart, Standoff } from "./standoff-contract.ts";

/**
 * What is done on the day, in order, with this coil's own distances and times.
 *
 * @param standoff  of the same coil
 * @param lengths   feet and inches in place of metres
 * @returns         parts with items; ids stay, so that a page can keep ticks beside them. None of it is a permission
 */
export function showDayChecklist(
  coil: Coil,
  standoff: Standoff,
  { lengths }: { readonly lengths?: "m" | "in" } = {},
): readonly ChecklistPart[] {
  const words = lengthWords(lengths);
  return [
    { title: "Two people", items: people(coil, words) },
    { title: "Before the doors open", items: room(coil, standoff, words) },
    { title: "Before the plug goes in", items: bench(coil) },
    { title: "With the audience there", items: audience(standoff, words) },
    { title: "While it runs", items: running(coil, standoff) },
    { title: "After the last burst", items: after(standoff) },
    { title: "If somebody is hurt", items: hurt },
  ];
}

const item = (id: string, by: ChecklistItem["by"], says: string): ChecklistItem => ({ id, by, says });

function people({ show }: Coil, { length }: LengthWords): ChecklistItem[] {
  const place = (where: { readonly at: number } | undefined) =>
    where ? `${length(where.at)} from the axis` : "place not in the file";
  return [
    item("operator", "operator", `One trained operator, the stop in hand, sober, rested: ${place(show?.operator)}.`),
    item("second", "second", `A second person at breaker or plug, with nothing else to do: ${place(show?.second)}.`),
    item(
      "rule",
      "both",
      "Either may stop it at any time, without a reason. If one leaves, it is off and the plug is out.",
    ),
  ];
}

function room({ show, topload }: Coil, { figures }: Standoff, { length, keep }: LengthWords): ChecklistItem[] {
  const value = (id: string) => figures.get(id)?.value;
  const [line, reach, strike] = ["standoff.audience", "standoff.reach", "standoff.strike"].map(value);
  return [
    item(
      "line",
      "both",
      line === undefined
        ? "No line could be computed: nobody but you two in the room."
        : `Barrier at ${keep(line)} or more from the axis, measured with a tape all round.`,
    ),
    item(
      "strike",
      "both",
      strike === undefined
        ? "Strike distance not known."
        : `Nothing earthed and nobody within ${keep(strike)} of ${topload.length > 0 ? "top load and winding" : "the winding"}, ceiling and lights included, but what is meant to be struck.`,
    ),
    item(
      "fire",
      "second",
      `Nothing that burns within ${reach === undefined ? "twice the reach" : keep(2 * reach)}; carbon dioxide extinguisher at hand.`,
    ),
    item(
      "earth",
      "operator",
      show?.earth
        ? `Earth rod ${length(show.earth.at)} from the axis, lead ${show.earth.lead === undefined ? "of unknown length" : length(show.earth.lead)}: pulled at both ends, continuity measured.`
        : "Earth: not in the file. Rod or plate of its own, lead pulled at both ends, continuity measured.",
    ),
    item("metal", "second", "Rails, stands, trusses and instruments near by are bonded or moved."),
    item("alarms", "both", "Venue has agreed about detectors and sprinklers, and who watches for fire meanwhile."),
    item("air", "second", "Air is changed; a sharp smell stops the show."),
    item(
      "neighbours",
      "both",
      "Venue, neighbours and, where the law asks for it, the authority know of the radio interference.",
    ),
    item(
      "exit",
      "both",
      `Way out is clear and lit${show?.exit ? `, ${length(show.exit.at)} from the axis` : "; the file does not say where it is"}.`,
    ),
    item(
      "emergency",
      "second",
      "Local emergency number ______ and address ______ are written here; defibrillator is at ______.",
    ),
  ];
}

function bench(coil: Coil): ChecklistItem[] {
  const { interrupter, feedback, supply } = coil;
  const limits = interrupter?.limits;
  return [
    item(
      "look",
      "operator",
      "Winding, coat, leads, joints and strike ring looked at in good light: no track, no char, nothing loose.",
    ),
    item(
      "limits",
      "operator",
      limits
        ? `Interrupter's limits read back: ${formatQuantity(limits.onTime, "s", { digits: 3, trim: true })}, ${formatQuantity(limits.duty, "%", { digits: 2, trim: true })}, ${formatQuantity(limits.rate, "Hz", { digits: 3, trim: true })}.`
        : "Interrupter's limits are not in the file: a stuck control has no bound.",
    ),
    item(
      "trip",
      "operator",
      feedback?.overcurrent === undefined
        ? "Overcurrent setting is not in the file."
        : `Overcurrent set to ${formatQuantity(feedback.overcurrent, "A", { digits: 3, trim: true })}; it guards parts, not people.`,
    ),
    item(
      "fuse",
      "operator",
      supply?.fuse === undefined
        ? "Fuse is not in the file."
        : `Fuse of ${formatQuantity(supply.fuse, "A", { digits: 3, trim: true })} in its holder.`,
    ),
    item("dead-man", "both", "Stop tried with the plug in and the bus off: let go, and it stays off."),
    item("breaker", "second", "Breaker or plug tried by the second person, from where they stand."),
  ];
}

function audience({ figures }: Standoff, { keep }: LengthWords): ChecklistItem[] {
  const line = figures.get("standoff.audience")?.value;
  return [
    item(
      "implants",
      "both",
      "Asked aloud: pacemaker, defibrillator, stimulator, pump, cochlear implant, pregnancy. Whoever has one leaves before the coil is live, unless their doctor has said otherwise.",
    ),
    item("devices", "second", "Hearing aids, phones, cards and keys are put away."),
    item("hearing", "both", "Hearing protection on, operator and first rows; given out at the door."),
    item("flashes", "second", "Warned of noise and flashes."),
    item("children", "second", "Each child has an adult's hand; no animals."),
    item(
      "touch",
      "both",
      "Said aloud: nobody touches the arc, the coil, or a metal thing held toward it, whatever they have seen elsewhere.",
    ),
    item(
      "counted",
      "second",
      `Everybody is behind the ${line === undefined ? "barrier" : `line at ${keep(line)}`}: looked, not assumed.`,
    ),
  ];
}

function running(coil: Coil, { noise }: Standoff): ChecklistItem[] {
  return [
    item("call", "operator", "Called out before the first burst; the second person answers, or there is none."),
    item("first", "operator", "First burst at the least setting; then up, looking at where the arc goes."),
    item(
      "stop",
      "both",
      "Stopped at once: somebody over the line, an arc to the primary, smoke, a smell, a new sound, anything that was not agreed.",
    ),
    ...(noise?.timeToFullDose
      ? [
          item(
            "dose",
            "second",
            `Clock kept: ${noise.duration === undefined ? "the show's length is not in the file" : `${formatQuantity(noise.duration, "s", { digits: 3, trim: true })} of sparks today, not more`}.`,
          ),
        ]
      : []),
    ...(coil.interrupter
      ? []
      : [item("interrupter", "operator", "Interrupter is not in the file: its settings are written here: ______.")]),
  ];
}

function after({ stored }: Standoff): ChecklistItem[] {
  return [
    ...stored.steps.map((says, index) => item(`discharge-${index + 1}`, "both", says)),
    item("doors", "second", "Nobody crosses the line before the short is on and the operator has said so."),
    item("fire-watch", "second", "Looked again after half an hour: warm parts, smoulder; detectors are on again."),
  ];
}

const hurt: readonly ChecklistItem[] = [
  item("off", "second", "Breaker or plug. Then, and only then, touch the person."),
  item("phone", "operator", "Local emergency number; say electric shock, burn, where."),
  item("resuscitate", "both", "Not breathing: resuscitate, as taught; defibrillator as soon as it is there."),
  item(
    "doctor",
    "both",
    "Every shock above a tingle and every burn is seen by a doctor today: heart and deep burns show late.",
  ),
];
