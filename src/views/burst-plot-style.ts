/** Inks of the burst's picture on paper and in a dark hall. Literal colours: readers of SVG outside a browser know no variables. */

interface Ink {
  readonly paper: string;
  readonly hall: string;
}

const sheet: Ink = { paper: "#fbf9f2", hall: "#10161a" };
const ink: Ink = { paper: "#1b2226", hall: "#e9ece8" };
const soft: Ink = { paper: "#48535a", hall: "#aab6ba" };
const hair: Ink = { paper: "#d5d0c0", hall: "#2a343a" };
const dimension: Ink = { paper: "#0b5263", hall: "#86d0de" };
const steel: Ink = { paper: "#4c5b66", hall: "#a7b7c2" };
const copper: Ink = { paper: "#94450f", hall: "#e8a46c" };
const crimson: Ink = { paper: "#b02a55", hall: "#ff8fae" };
const violet: Ink = { paper: "#7a2f78", hall: "#d79ae0" };
const green: Ink = { paper: "#23693c", hall: "#7fce98" };
const sand: Ink = { paper: "#b98a66", hall: "#8f6a4c" };
const stone: Ink = { paper: "#8a8778", hall: "#5d6a70" };

const strokes: Readonly<Record<string, Ink>> = {
  ".hair": hair,
  ".axis": ink,
  ".mark,.level,.envelope": soft,
  ".primaryCurrent": copper,
  ".bridgeVoltage": steel,
  ".tankVoltage": dimension,
  ".topVoltage": crimson,
  ".gateUpper,.gateLower": ink,
};
const fills: Readonly<Record<string, Ink>> = {
  ".sheet": sheet,
  text: ink,
  ".upperSwitch,.lowerSwitch": steel,
  ".upperDiode,.lowerDiode": copper,
  ".part.streamer": violet,
  ".part.secondary": crimson,
  ".part.primary": copper,
  ".part.tank": dimension,
  ".part.switches": steel,
  ".part.diodes": stone,
  ".part.bus": sand,
  ".part.stored": green,
};
const shapes =
  "path{fill:none}.line{stroke-width:1.3}.mark{stroke-dasharray:4 3}.level{stroke-dasharray:9 3 2 3}.envelope{stroke-dasharray:2 2}.title,.name{font-weight:700}";

const rules = (theme: keyof Ink) =>
  [
    ...Object.entries(strokes).map(([selector, of]) => `${selector}{stroke:${of[theme]}}`),
    ...Object.entries(fills).map(([selector, of]) => `${selector}{fill:${of[theme]}}`),
    // A line of the sheet's own tone parts the bands, for those who see no colour.
    `.part{stroke:${sheet[theme]};stroke-width:.6}`,
  ].join("");

export const burstPlotStyle = `${shapes}${rules("paper")}@media (prefers-color-scheme:dark){${rules("hall")}}`;
