import { burstText } from "../../views/text/burst.ts";
import { energyText } from "../../views/text/energy.ts";
import { burstJson } from "../../views/text/json.ts";
import { type BurstOptions, burstSetting } from "../burst-options.ts";
import type { Io } from "../io.ts";
import { type RoomPage, roomPage } from "../room-page.ts";
import { pictures } from "../waveform-output.ts";

export interface BurstCommandOptions extends BurstOptions {
  readonly json?: boolean;
  readonly sure?: boolean;
  /** Where waveforms go as a table or a picture: a file, or `-` for standard output. */
  readonly csv?: string;
  readonly svg?: string;
}

const page: RoomPage = {
  rooms: ["burst", "stand-off"],
  groups: ["burst", "winding", "secondary", "primary", "bank"],
  // The account above shows them already.
  leaveOut: /^burst\.energy/,
  json: burstJson,
  head: ({ coil, fileName, width, colour, ...bursts }) => {
    const account = energyText({ figures: bursts.study.figures, colour });
    return [
      burstText({ name: coil.name, ...bursts, fileName, width, colour }),
      ...(account === undefined ? [] : [account]),
    ];
  },
};

/** `coilwright burst FILE`: what happens in one burst, who pays for it, and how far it reaches. */
export async function burst(io: Io, name: string, options: BurstCommandOptions): Promise<number> {
  const setting = burstSetting(options);
  const out = pictures(io, options);
  return roomPage(io, name, { page, setting, ...options, ...(out ? { out } : {}) });
}
