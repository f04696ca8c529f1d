/** The hazards of a show that somebody has to acknowledge by name before its sheet is printed. */
export const hazards = {
  arc: "the arc reaches people, ceiling and metal, and carries mains and tank current where the insulation fails",
  touch: "a touched arc, coil or held metal burns deep, and its low lines reach nerve and muscle",
  storedEnergy: "bus, tank and top load stay charged after the plug is out, for days with an open bleeder",
  mains: "mains and bus kill at a touch, and the coil hangs on them",
  implants: "no wearer of an implant, pump or hearing aid in the room without their doctor's word",
  noise: "the sparks can fill a day's dose of noise within minutes",
  air: "ozone and nitrogen oxides gather in a closed room",
  fire: "arcs light curtains, dust, gas, fog fluid and aerosols",
  radio: "an unscreened coil disturbs radio, instruments and alarms far away",
} as const;

export type Hazard = keyof typeof hazards;
