/** WAV records: 8, 16, 24 and 32 bit whole numbers, 32 and 64 bit floating point, any number of channels. */
import type { Finding } from "../../catalogue/finding.ts";
import type { Channel } from "../../description/record.ts";
import type { CaptureReading, CaptureSettings, Dialect } from "./dialect.ts";
import { headerUnit } from "./header-unit.ts";
import { counted, trouble } from "./problems.ts";

interface Layout {
  readonly coding: "whole" | "float";
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}

const pcm = 1;
const ieeeFloat = 3;
const extensible = 0xfffe;

/** True where the bytes begin as a WAV file does. */
export function isWav(head: Uint8Array): boolean {
  return ["RIFF", "RF64"].includes(asciiAt(head, 0)) && asciiAt(head, 8) === "WAVE";
}

function asciiAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

/**
 * Reads a WAV file. Full scale is 1 unless a channel's `scale` says what it is in the channel's `unit`.
 *
 * @source  Multimedia programming interface and data specifications 1.0 (1991), chapter 3, and its later extensible form; from memory
 */
export function readWav(bytes: Uint8Array, settings: CaptureSettings): CaptureReading {
  const findings: Finding[] = [];
  const stop = (what: string, expected: string, remedies: readonly string[] = []): CaptureReading => ({
    findings: [...findings, trouble({ rule: "capture-wav", what, expected, remedies })],
  });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let layout: Layout | undefined;
  let data: { from: number; to: number } | undefined;
  /** Of a long file: the length that stands apart, as 64 bits. */
  let longSize: number | undefined;
  let at = 12;
  while (at + 8 <= bytes.length && data === undefined) {
    const id = asciiAt(bytes, at);
    const from = at + 8;
    const written = view.getUint32(at + 4, true);
    const size = id === "data" && written === 0xffffffff ? (longSize ?? written) : written;
    if (id === "ds64" && from + 16 <= bytes.length) longSize = Number(view.getBigUint64(from + 8, true));
    else if (id === "fmt ") {
      const found = layoutAt(view, from, Math.min(size, bytes.length - from));
      if (typeof found === "string")
        return stop(found, "whole numbers of 8, 16, 24 or 32 bit, or floating point of 32 or 64 bit", [
          "export the record as 16 bit or floating point",
        ]);
      layout = found;
    } else if (id === "data") {
      const end = from + size;
      // Writers that are cut off leave 0 or the greatest number as the length.
      const open = size === 0 || size === 0xffffffff;
      if (!open && end > bytes.length)
        findings.push(
          trouble({
            rule: "capture-shorter-than-announced",
            severity: "look",
            what: `the WAV header announces ${counted(size, "byte")} of samples, the file has ${bytes.length - from}`,
            expected: "the whole record: it may have been cut while it was copied",
          }),
        );
      data = { from, to: open ? bytes.length : Math.min(end, bytes.length) };
    }
    at = from + size + (size % 2);
  }
  if (layout === undefined) return stop("the WAV file has no `fmt ` chunk before its samples", "a whole WAV file");
  if (data === undefined) return stop("the WAV file has no `data` chunk", "a whole WAV file");
  const width = layout.bits / 8;
  const rows = Math.floor((data.to - data.from) / (width * layout.channels));
  if (rows < 2) return stop(`the WAV file has ${counted(rows, "sample")}`, "a record of thousands of samples");
  const channels = channelsOf(layout, settings);
  const interval = settings.interval ?? 1 / layout.rate;
  const dialect: Dialect = {
    format: "wav",
    encoding: "utf-8",
    delimiter: ",",
    decimal: ".",
    headerLines: 0,
    columns: channels.map(({ written, factor, channel: { name, unit, role } }) => ({
      name,
      use: "channel",
      written,
      unit,
      factor,
      role,
    })),
    interval,
    start: settings.start ?? 0,
    reasons: [
      {
        part: "format",
        because: `it begins with RIFF and WAVE: ${layout.bits} bit ${layout.coding === "float" ? "floating point" : "whole numbers"}, ${counted(layout.channels, "channel")}`,
      },
      {
        part: "time",
        because:
          settings.interval === undefined
            ? `the header gives ${layout.rate} samples a second`
            : "the sample interval was set",
      },
    ],
  };
  return {
    dialect,
    findings,
    record: {
      name: settings.name ?? "",
      start: settings.start ?? 0,
      interval,
      length: rows,
      channels: channels.map(({ channel, factor }, index) => ({
        ...channel,
        samples: samplesOf(view, { layout, from: data.from + index * width, rows, factor }),
      })),
    },
  };
}

function layoutAt(view: DataView, from: number, size: number): Layout | string {
  if (size < 16) return "the `fmt ` chunk is cut off";
  let tag = view.getUint16(from, true);
  const channels = view.getUint16(from + 2, true);
  const rate = view.getUint32(from + 4, true);
  const bits = view.getUint16(from + 14, true);
  if (tag === extensible && size >= 26) tag = view.getUint16(from + 24, true);
  if (channels === 0) return "the file has 0 channels";
  if (rate === 0) return "the file has 0 samples a second";
  if (tag === pcm && [8, 16, 24, 32].includes(bits)) return { coding: "whole", channels, rate, bits };
  if (tag === ieeeFloat && [32, 64].includes(bits)) return { coding: "float", channels, rate, bits };
  return `the samples are coded in a way that is not read (format ${tag}, ${bits} bit)`;
}

function channelsOf({ channels }: Layout, settings: CaptureSettings) {
  const usual = channels === 1 ? ["mono"] : channels === 2 ? ["left", "right"] : [];
  return Array.from({ length: channels }, (_, index) => {
    const set = settings.columns?.[index] ?? {};
    const unit = set.unit === undefined ? undefined : headerUnit(set.unit);
    const channel: Omit<Channel, "samples"> = {
      name: set.name ?? usual[index] ?? `channel ${index + 1}`,
      role: set.role ?? "audio",
      unit: unit?.unit ?? "1",
      ...(set.transducer === undefined ? {} : { transducer: set.transducer }),
    };
    return { channel, written: unit?.written ?? "", factor: (unit?.factor ?? 1) * (set.scale ?? 1) };
  });
}

function samplesOf(
  view: DataView,
  { layout, from, rows, factor }: { layout: Layout; from: number; rows: number; factor: number },
): Float32Array {
  const samples = new Float32Array(rows);
  const stride = (layout.bits / 8) * layout.channels;
  const readers: Readonly<Record<string, (at: number) => number>> = {
    // Eight bits are offset binary, the wider ones two's complement.
    whole8: (at) => (view.getUint8(at) - 128) / 128,
    whole16: (at) => view.getInt16(at, true) / 32768,
    whole24: (at) => (view.getInt16(at + 1, true) * 256 + view.getUint8(at)) / 8388608,
    whole32: (at) => view.getInt32(at, true) / 2147483648,
    float32: (at) => view.getFloat32(at, true),
    float64: (at) => view.getFloat64(at, true),
  };
  const read = readers[`${layout.coding}${layout.bits}`] ?? (() => Number.NaN);
  for (let row = 0; row < rows; row++) samples[row] = read(from + row * stride) * factor;
  return samples;
}
