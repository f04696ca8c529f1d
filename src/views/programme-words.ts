/** What page and room of the programme share. */

/** Figures that are shown before and after a fit. */
export const compared = [
  "programme.pulses",
  "programme.trimmed",
  "programme.dropped",
  "programme.notesSilent",
  "programme.notesLowered",
  "programme.peakRate",
  "programme.peakDuty",
  "programme.peakPower",
  "programme.junctionPeak",
] as const;
