/** `node scripts/tunes.js`: writes the MIDI file beside every tune of `examples/`, from its text. */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { runnerImport } from "vite";
import { examples } from "./demo-coil.js";
import { root } from "./step.js";

/** @type {{ module: any }} */
const { module } = await runnerImport(join(root, "src/readers/song.ts"), { configFile: false, logLevel: "error" });

for (const name of readdirSync(examples).filter((file) => file.endsWith(".tune"))) {
  const { song, findings } = module.readNotation(readFileSync(join(examples, name), "utf8"));
  if (song === undefined)
    throw new Error(`${name}: ${findings.map((/** @type {{ what: string }} */ { what }) => what).join("; ")}`);
  writeFileSync(join(examples, name.replace(/\.tune$/, ".mid")), module.writeMidi(song).bytes);
}
