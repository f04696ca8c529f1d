/** Where the lines of the diagram run, so that wires, symbols and the paths of the current agree. */
export const rail = { plus: 110, middle: 250, minus: 390, back: 452 } as const;
export const column = {
  terminals: 36,
  fuse: 112,
  inrush: 204,
  rectifier: 308,
  capacitors: 424,
  bleeder: 506,
  secondLeg: 612,
  /** Where the load's return comes up to the second leg or the midpoint. */
  back: 690,
  firstLeg: 786,
  sense: 880,
  tank: 948,
  primary: 1024,
  secondary: 1062,
} as const;
/** Centres of the upper and the lower switch of a leg, and of the two capacitors. */
export const level = { upper: 180, lower: 320 } as const;
/** Of the diode beside its switch. */
export const diodeBeside = 34;
export const drive = { top: 520, middle: 566, bottom: 612 } as const;
