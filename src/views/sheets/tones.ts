/** The inks of the sheets, as the app's paper has them; dark enough for a printer without colour. */
import type { Tone } from "./page.ts";

export const tones: Readonly<Record<Tone, string>> = {
  ink: "#1b2226",
  soft: "#48535a",
  rule: "#9a9686",
  hair: "#cfcabb",
  copper: "#94450f",
  steel: "#4c5b66",
  guide: "#0b5263",
  stop: "#a3141a",
  wash: "#f1eee3",
  paper: "#ffffff",
};
