/** docs/burst.md prints the constants of the channel and names sources and files. They must be those of the code. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { simulateBurst } from "../../src/burst/index.ts";
import { sources } from "../../src/catalogue/sources.ts";
import { channelConstants, channelLoad, keptShare } from "../../src/stress/index.ts";
import { burstCircuit } from "../../src/workbench/burst-circuit.ts";
import { fullSetting } from "../../src/workbench/burst-setting.ts";
import { steadyTrain } from "../../src/workbench/burst-train.ts";
import { lantern, lanternSolved, pointVoltage } from "./burst-coils.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const page = readFileSync(`${root}/docs/burst.md`, "utf8");

const { overcurrent: _none, ...feedback } = lantern.feedback;
const coil = { ...lantern, feedback };

/** A row of the table of what growth within a burst would change: setting as printed, then the numbers as [start, end, taken]. */
const rows = [
  ["110 µs, 180 Hz", 110e-6, 180, [214, 185, 186], [107, 96, 98], [1.47, 1.35, 1.42]],
  ["110 µs, 500 Hz", 110e-6, 500, [183, 183, 183], [93, 90, 91], [1.26, 1.2, 1.23]],
  ["200 µs, 180 Hz", 200e-6, 180, [185, 184, 184], [96, 90, 93], [2.72, 2.18, 2.41]],
] as const;

describe("docs/burst.md", () => {
  // law: the page prints what the functions give; 2 % by its digits and by when a train counts as steady
  it.each(rows)(
    "measures what growth within a burst would change at %s",
    (setting, onTime, rate, current, top, energy) => {
      expect(page).toContain(`| ${setting} |`);
      const full = fullSetting(coil, lanternSolved, { breakoutVoltage: pointVoltage, onTime, rate });
      const circuit = burstCircuit(coil, lanternSolved, full);
      const train = steadyTrain({ circuit, supply: coil.supply, setting: full, held: false });
      const { byEnergy, byVoltage, cold, load } = train.channel!;
      const hot = Math.min(byEnergy, byVoltage);
      [Math.max(cold, hot * keptShare({ period: train.period })), Math.max(cold, hot), load].forEach((length, n) => {
        const channel = channelLoad({ length, frequency: circuit.operatingFrequency });
        const found = simulateBurst(
          { ...train.network, streamer: { breakoutVoltage: pointVoltage, ...channel } },
          { onTime, endTime: train.endTime, burstEnd: "synchronous", waveforms: false },
        );
        expect(Math.abs(found.peakPrimaryCurrent / current[n]! - 1)).toBeLessThan(0.02);
        expect(Math.abs(found.peakTopVoltage / 1e3 / top[n]! - 1)).toBeLessThan(0.02);
        expect(Math.abs(found.ledger.streamer / energy[n]! - 1)).toBeLessThan(0.02);
      });
    },
  );

  // law: the page says what the code says
  it.each(Object.entries(channelConstants))("prints the constant %s as it is", (name, constant) => {
    const { least, taken, greatest, unit, origin } = constant;
    const row = [name, ...[least, taken, greatest].map((value) => `${Number(value.toPrecision(3))}`), unit, origin];
    expect(page).toContain(`| ${row.join(" | ")} |`);
  });

  it("names sources and files that are there", () => {
    const keys = [...page.matchAll(/^\| ((?:`[a-z0-9-]+`(?:, )?)+) \| \[/gm)].flatMap(([, cell]) =>
      [...cell!.matchAll(/`([a-z0-9-]+)`/g)].map(([, key]) => key!),
    );
    expect(keys.length).toBeGreaterThan(8);
    expect(keys.filter((key) => !sources.has(key))).toEqual([]);
    const paths = [...page.matchAll(/((?:src|test)\/[\w./-]*\w)/g)].map(([, path]) => path!);
    expect(paths.filter((path) => !existsSync(`${root}/${path}`))).toEqual([]);
  });
});
