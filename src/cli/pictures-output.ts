/** The teaching pictures of a coil as files: stills in both themes, or a numbered series of one round. */
import type { Coil } from "../description/coil.ts";
import type { Picture } from "../views/pictures/picture.ts";
import { pictureNeeds, picturesOfCoil } from "../views/pictures/pictures-of-coil.ts";
import { type PictureTheme, pictureSvg } from "../views/pictures/svg.ts";
import { type Approach, approach } from "../workbench/approach.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import type { Solution } from "../workbench/contract.ts";
import type { Io } from "./io.ts";
import { pictureFont } from "./sheet-fonts.ts";

/** By which a picture of the house is known: nothing else is written over. */
const beginning = "<!-- Coilwright picture -->";
const themes: readonly PictureTheme[] = ["paper", "hall"];

interface Wanted {
  readonly coil: Coil;
  readonly solution: Solution;
  /** With its waveforms. */
  readonly study: BurstStudy;
  readonly folder: string;
  /** Of one round; a still where absent. */
  readonly frames?: number;
}

export interface WrittenPictures {
  readonly written: readonly string[];
  /** The same, a series in one line. */
  readonly listed: readonly string[];
  readonly without: readonly { readonly picture: string; readonly says: string }[];
}

export async function writePictures(
  io: Io,
  { coil, solution, study, folder, frames }: Wanted,
): Promise<WrittenPictures> {
  io.progress("putting somebody beside the coil");
  const pictures = picturesOfCoil({ coil, solution, study, approach: approachOf(coil) });
  const written: string[] = [];
  const listed: string[] = [];
  for (const picture of pictures) {
    io.progress(`drawing ${picture.title}`);
    for (const theme of themes) {
      const all = framesOf(picture, theme, frames);
      const names = [all[0], all.length > 1 ? all.at(-1) : undefined].flatMap((one) => (one ? [one.name] : []));
      listed.push(`${folder}/${names.join(" … ")}`);
      for (const { name, phase } of all) {
        const path = `${folder}/${name}`;
        const text = `${beginning}\n${pictureSvg(picture, theme, { phase, font: pictureFont })}\n`;
        await io.write(path, { text, beginning });
        written.push(path);
      }
    }
  }
  const drawn = new Set(pictures.map(({ id }) => id));
  const without = Object.entries(pictureNeeds).flatMap(([picture, needs]) =>
    drawn.has(picture) ? [] : [{ picture, says: `it takes ${needs}` }],
  );
  return { written, listed, without };
}

/** The last frame comes before the first one again, so that the series can go round. */
function framesOf(
  { id, still }: Picture,
  theme: PictureTheme,
  frames: number | undefined,
): readonly { readonly name: string; readonly phase: number }[] {
  if (frames === undefined) return [{ name: `picture-${id}-${theme}.svg`, phase: still }];
  const digits = Math.max(3, String(frames).length);
  return Array.from({ length: frames }, (_, n) => ({
    name: `picture-${id}-${theme}-${String(n + 1).padStart(digits, "0")}.svg`,
    phase: n / frames,
  }));
}

/** Nobody stands beside a coil whose surroundings leave no room; the picture is then left out. */
function approachOf(coil: Coil): Approach | undefined {
  try {
    return approach(coil);
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
