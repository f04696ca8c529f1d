import { describe, expect, it } from "vitest";
import { readCoil } from "../../src/readers/coil-file.ts";
import { layOverlay } from "../../src/views/match-plot.ts";
import { compareReading } from "../../src/workbench/bringup-compare.ts";
import { match, type TimeRecord } from "../../src/workbench/match.ts";
import { overlays } from "../../src/workbench/match-overlay.ts";
import { solve } from "../../src/workbench/solve.ts";
import { benchRecord, exampleText } from "./match-bench.ts";

describe("a record over its prediction", () => {
  const file = readCoil(exampleText("inkwell"));
  const solution = solve(file.coil!, { brief: true });
  const record = benchRecord(file.coil!, { bus: 100 }) as TimeRecord;
  const found = match({ file, records: [record], solve, solution, date: "2026-11-25" });
  const laid = overlays(record, { solution, match: found, index: 0 });
  const [current, loop] = laid;

  // independent: the record was simulated with three modes, 8 bits and noise; the prediction knows two loops
  it("leaves little of a coil that is as drawn, at its own scale and place", () => {
    expect(laid.map(({ against }) => against)).toEqual(["primary current", "top-load voltage"]);
    for (const name of ["drawn", "fitted"] as const) {
      const wave = current?.predicted[name];
      expect(wave?.left).toBeLessThan(0.12);
      expect(wave?.scale).toBe(1);
      expect(Math.abs(wave?.shift ?? 1)).toBeLessThan(0.2e-6);
    }
    expect(loop?.predicted.fitted?.left).toBeLessThan(0.25);
    expect(current?.onTime).toBeCloseTo(70e-6, 7);
  });

  // law: a channel turned upside down is met by the same wave with its sign changed
  it("says when a channel is upside down", () => {
    const turned: TimeRecord = {
      ...record,
      record: {
        ...record.record,
        channels: record.record.channels.map((channel) =>
          channel.role === "gate" ? channel : { ...channel, samples: channel.samples.map((value) => -value) },
        ),
      },
    };
    const [first] = overlays(turned, { solution, match: found, index: 0 });
    expect(first?.predicted.fitted?.scale).toBe(-1);
    expect(first?.predicted.fitted?.left).toBeCloseTo(current?.predicted.fitted?.left ?? 0, 3);
  });

  // law: what is drawn beneath is the record less the prediction; in frequency the record stands at its carrier
  it("gives the residual and the spectrum on the record's own scale", () => {
    const carrier = record.reading.carrier!.is.value;
    const { frequency, measured } = current!.spectrum;
    const top = measured.reduce((best, value, n) => (value > measured[best]! ? n : best), 0);
    expect(Math.abs(frequency[top]! / carrier - 1)).toBeLessThan(0.02);
    const parts = layOverlay(current!, {
      prediction: "fitted",
      span: { from: 0, to: 60e-6 },
      width: 600,
      trackHeight: 120,
      margin: { left: 50, right: 10, top: 20, bottom: 30 },
      gap: 20,
      fitted: false,
    });
    expect(parts.predicted?.path).not.toBe(parts.measured.path);
    expect(parts.residual!.y.high).toBeLessThan(0.3 * parts.measured.y.high);
    expect(
      layOverlay(
        { ...current!, predicted: {} },
        {
          prediction: "fitted",
          span: { from: 0, to: 60e-6 },
          width: 600,
          trackHeight: 120,
          margin: { left: 50, right: 10, top: 20, bottom: 30 },
          gap: 20,
          fitted: false,
        },
      ).residual,
    ).toBeUndefined();
  });

  it("draws no burst against a record whose fit is not there", () => {
    const [alone] = overlays(record, { solution, match: undefined, index: 0 });
    expect(alone?.predicted).toEqual({});
    expect(alone?.spectrum.predicted).toEqual({});
  });
});

// law: an interval has an inside and two outsides
describe("a reading of the bring-up", () => {
  const expects = { value: 10, low: 8, high: 13 };
  it.each([
    [8, { verdict: "inside", off: 0, part: 0, times: 0.8 }],
    [7, { verdict: "below", off: 1, part: 0.1, times: 0.7 }],
    [33, { verdict: "above", off: 20, part: 2, times: 3.3 }],
  ] as const)("of %s", (reading, found) => expect(compareReading(expects, reading)).toEqual(found));
  it("of nothing expected has no part", () =>
    expect(compareReading({ value: 0, low: 0, high: 0.5 }, 1)).toEqual({
      verdict: "above",
      off: 0.5,
      part: 0,
      times: 1,
    }));
});
