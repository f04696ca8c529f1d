/** The value of a dimension as a plain number for those who hear it: millimetres, degrees or a count. */
import type { Dimension } from "../../views/drawing.ts";

const shown = { length: 1e3, angle: 180 / Math.PI, count: 1, ratio: 1 };

export const spokenValue = ({ value, quantity }: Dimension) => Number((value * shown[quantity]).toFixed(4));
