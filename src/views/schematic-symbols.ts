/** Symbols of a circuit diagram as SVG paths, drawn by the practice of IEC 60617; every one stands about a point, with leads left to the wires. */

export interface At {
  readonly x: number;
  readonly y: number;
}

/** Rectangle, current going down. Leads end 16 above and below. */
export const resistorUpright = ({ x, y }: At) => `M${x - 6} ${y - 16}h12v32h-12Z`;

/** Rectangle with its conductor through it. Leads end 20 to each side, but the line goes on. */
export const fuse = ({ x, y }: At) => `M${x - 20} ${y - 7}h40v14h-40ZM${x - 20} ${y}h40`;

/** Rectangle crossed by the mark of a value that follows the temperature. Leads end 20 to each side. */
export const thermistor = ({ x, y }: At) => `M${x - 20} ${y - 7}h40v14h-40ZM${x - 24} ${y + 15}h9L${x + 20} ${y - 14}`;

/** Two plates across an upright lead, which ends 4 above and below. */
export const capacitorUpright = ({ x, y }: At) => `M${x - 15} ${y - 4}h30M${x - 15} ${y + 4}h30`;

/** Two plates across a lead that runs along, which ends 4 to each side. */
export const capacitorAlong = ({ x, y }: At) => `M${x - 4} ${y - 15}v30M${x + 4} ${y - 15}v30`;

/** Half-turns below each other, bulging to a side; begins at the point and goes down 2 × radius for each. */
export function windingDown({
  x,
  y,
  turns,
  radius,
  bulge,
}: At & {
  readonly turns: number;
  readonly radius: number;
  readonly bulge: "left" | "right";
}): string {
  const sweep = bulge === "right" ? 1 : 0;
  return `M${x} ${y}${`a${radius} ${radius} 0 0 ${sweep} 0 ${2 * radius}`.repeat(turns)}`;
}

/** Half-turns beside each other, bulging upward; begins at the point and goes right 2 × radius for each. */
export const windingAlong = ({ x, y, turns, radius }: At & { readonly turns: number; readonly radius: number }) =>
  `M${x} ${y}${`a${radius} ${radius} 0 0 1 ${2 * radius} 0`.repeat(turns)}`;

/** A diode that lets current up, its lead through it from 9 below to 9 above. */
export const diodeUp = ({ x, y }: At) =>
  `M${x} ${y + 9}V${y - 9}M${x - 8} ${y + 8}h16L${x} ${y - 8}ZM${x - 8} ${y - 8}h16`;

/** Transistor with insulated gate, bipolar: collector 32 above, emitter 32 below, gate 44 to the left. */
export const igbt = ({ x, y }: At) =>
  `M${x} ${y - 32}V${y - 20}L${x - 18} ${y - 8}M${x - 18} ${y - 15}V${y + 15}M${x - 24} ${y - 15}V${y + 15}M${x - 24} ${y}H${x - 44}` +
  `M${x - 18} ${y + 8}L${x} ${y + 20}V${y + 32}M${x - 9} ${y + 19}L${x - 1} ${y + 19}L${x - 5} ${y + 12}`;

/** Field-effect transistor, enhancement, n-channel: drain 32 above, source 32 below, gate 44 to the left. */
export const mosfet = ({ x, y }: At) =>
  `M${x} ${y - 32}V${y - 12}H${x - 18}M${x - 18} ${y - 17}v10M${x - 18} ${y - 5}v10M${x - 18} ${y + 7}v10M${x - 24} ${y - 15}V${y + 15}` +
  `M${x - 24} ${y}H${x - 44}M${x - 18} ${y + 12}H${x}M${x - 18} ${y}H${x}V${y + 32}M${x - 9} ${y - 4}L${x - 17} ${y}L${x - 9} ${y + 4}`;

/** Rectifier in bridge connection as one block of 64 by 64: a diode in a square. */
export const rectifierBlock = ({ x, y }: At) =>
  `M${x - 32} ${y - 32}h64v64h-64ZM${x - 20} ${y}H${x + 20}M${x - 8} ${y - 9}L${x + 8} ${y}L${x - 8} ${y + 9}ZM${x + 8} ${y - 9}v18`;

/** Earth, its lead ending at the point. */
export const earth = ({ x, y }: At) => `M${x} ${y}v8M${x - 13} ${y + 8}h26M${x - 9} ${y + 13}h18M${x - 4} ${y + 18}h8`;

/** A terminal. */
export const terminal = ({ x, y }: At) => `M${x} ${y}m-5 0a5 5 0 1 0 10 0a5 5 0 1 0 -10 0`;

/** A block with its corners at the ends given. */
export const block = ({ x, y, width, height }: At & { readonly width: number; readonly height: number }) =>
  `M${x} ${y}h${width}v${height}h${-width}Z`;
