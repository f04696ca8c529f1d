/** The project's own JSON form of a record: reading with places, and writing. Documented in docs/captures.md. */
import type { Finding } from "../../catalogue/finding.ts";
import {
  type BenchRecord,
  type Channel,
  type ChannelRole,
  channelRoles,
  type Transducer,
} from "../../description/record.ts";
import type { CaptureReading, CaptureSettings, Dialect } from "./dialect.ts";
import { headerUnit } from "./header-unit.ts";
import { JsonMistake, type JsonPlace, type JsonValue, placeIn, scanJson } from "./json-scan.ts";
import { counted, shortened, trouble } from "./problems.ts";

const version = 1;
const mend = ["mend it at this place; docs/captures.md shows the form"];
type Entries = Extract<JsonValue, { kind: "object" }>;

/** Reads the JSON form. Every mistake is placed; nothing is thrown. */
export function readJson(text: string, settings: CaptureSettings): CaptureReading {
  let root: JsonValue;
  try {
    root = scanJson(text);
  } catch (mistake) {
    if (!(mistake instanceof JsonMistake)) throw mistake;
    return {
      findings: [
        trouble({
          rule: "capture-json",
          ...placeIn(text, mistake.at),
          what: mistake.message,
          expected: mistake.expected,
          remedies: mend,
        }),
      ],
    };
  }
  return new RecordWalk(text, settings).read(root);
}

/** JSON of some other program: one sentence instead of one for each key. */
function foreign(root: JsonValue): Finding {
  const keys = root.kind === "object" ? [...root.entries.keys()].slice(0, 4).map((key) => `\`${shortened(key)}\``) : [];
  return trouble({
    rule: "capture-json",
    line: 1,
    what: `the file is JSON, but no record in this project's form${keys.length === 0 ? "" : `: it has ${keys.join(", ")}`}`,
    expected: `{ "coilwrightRecord": ${version}, "interval": 1e-7, "channels": [ … ] }`,
    remedies: ["export the record as CSV", "write it in the form that docs/captures.md shows"],
  });
}

class RecordWalk {
  private readonly findings: Finding[] = [];
  private readonly text: string;
  private readonly settings: CaptureSettings;

  constructor(text: string, settings: CaptureSettings) {
    this.text = text;
    this.settings = settings;
  }

  read(root: JsonValue): CaptureReading {
    if (root.kind !== "object") return { findings: [foreign(root)] };
    if (!root.entries.has("coilwrightRecord")) return { findings: [foreign(root)] };
    this.onlyKeys(root, ["coilwrightRecord", "name", "start", "interval", "channels"]);
    const format = root.entries.get("coilwrightRecord");
    if (format?.kind !== "number" || format.value !== version)
      this.wrong(
        format ?? root,
        "the file does not say that it is a record of format 1",
        `"coilwrightRecord": ${version}`,
      );
    const interval = this.settings.interval ?? this.number(root, "interval");
    if (interval !== undefined && !(interval > 0))
      this.wrong(
        root.entries.get("interval") ?? root,
        `a sample interval of ${interval} s`,
        "seconds between two samples, above 0",
      );
    const start = this.settings.start ?? (root.entries.has("start") ? this.number(root, "start") : 0);
    const channels = this.channels(root);
    const length = channels[0]?.samples.length ?? 0;
    if (this.findings.some(({ severity }) => severity === "stop") || interval === undefined || start === undefined)
      return { findings: this.findings };
    const name = this.settings.name ?? this.string(root, "name") ?? "";
    const record: BenchRecord = { name, start, interval, length, channels };
    return { record, dialect: dialectOf(record), findings: this.findings };
  }

  private channels(root: Entries): readonly Channel[] {
    const list = root.entries.get("channels");
    if (list?.kind !== "list" || list.items.length === 0) {
      this.wrong(
        list ?? root,
        "the record has no channels",
        '"channels": [ { "name": "loop", "unit": "V", "samples": [ 0.1, … ] } ]',
      );
      return [];
    }
    const channels = list.items.flatMap((item, index) => this.channel(item, index));
    const length = channels[0]?.samples.length ?? 0;
    for (const [index, { samples, name }] of channels.entries()) {
      if (samples.length !== length)
        this.wrong(
          list.items[index] ?? list,
          `${shortened(name)} has ${counted(samples.length, "sample")}, the first channel ${length}`,
          "channels of one length",
        );
    }
    if (channels.length > 0 && length < 2)
      this.wrong(list, `the channels have ${counted(length, "sample")}`, "thousands of samples; at least two");
    return channels;
  }

  private channel(item: JsonValue, index: number): Channel[] {
    if (item.kind !== "object") {
      this.wrong(item, "this is no channel", '{ "name": "loop", "unit": "V", "samples": [ 0.1, … ] }');
      return [];
    }
    this.onlyKeys(item, ["name", "unit", "role", "ratio", "burden", "samples"]);
    const samples = item.entries.get("samples");
    if (samples?.kind !== "samples") {
      this.wrong(samples ?? item, "the channel has no list of samples", '"samples": [ 0.1, null, "over", … ]');
      return [];
    }
    const set = this.settings.columns?.[index] ?? {};
    const unitText = set.unit ?? this.string(item, "unit") ?? "1";
    const unit = unitText === "1" ? { unit: "1", factor: 1 } : headerUnit(unitText);
    if (unit === undefined) {
      this.wrong(
        item.entries.get("unit") ?? item,
        `the unit \`${shortened(unitText)}\` is not known`,
        "V, mV, A, … or 1 where there is none",
      );
      return [];
    }
    const factor = unit.factor * (set.scale ?? 1);
    const transducer = set.transducer ?? this.transducer(item);
    return [
      {
        name: set.name ?? this.string(item, "name") ?? `channel ${index + 1}`,
        role: set.role ?? this.role(item),
        unit: unit.unit,
        samples: factor === 1 ? samples.values : samples.values.map((value) => value * factor),
        ...(transducer === undefined ? {} : { transducer }),
      },
    ];
  }

  private role(item: Entries): ChannelRole {
    const role = this.string(item, "role");
    if (role === undefined) return "unknown";
    if (Object.hasOwn(channelRoles, role)) return role as ChannelRole;
    this.wrong(
      item.entries.get("role") ?? item,
      `\`${shortened(role)}\` is not a role of a channel`,
      Object.keys(channelRoles).join(", "),
    );
    return "unknown";
  }

  private transducer(item: Entries): Transducer | undefined {
    if (!item.entries.has("ratio") && !item.entries.has("burden")) return undefined;
    const ratio = this.number(item, "ratio");
    const burden = this.number(item, "burden");
    if (ratio === undefined || burden === undefined) return undefined;
    if (ratio > 0 && burden > 0) return { ratio, burden };
    this.wrong(
      item.entries.get("burden") ?? item,
      "a ratio or a burden that is not above 0",
      "the ratio of the current transformer, and its burden in ohms",
    );
    return undefined;
  }

  private number(from: Entries, key: string): number | undefined {
    const value = from.entries.get(key);
    if (value?.kind === "number" && Number.isFinite(value.value)) return value.value;
    this.wrong(
      value ?? from,
      value === undefined ? `\`${key}\` is missing` : `\`${key}\` is not a number`,
      `"${key}": a number in SI units`,
    );
    return undefined;
  }

  private string(from: Entries, key: string): string | undefined {
    const value = from.entries.get(key);
    if (value === undefined || value.kind === "text") return value?.value;
    this.wrong(value, `\`${key}\` is not a text`, `"${key}": a text in quotes`);
    return undefined;
  }

  private onlyKeys(from: Entries, known: readonly string[]): void {
    for (const [key, at] of from.keys) {
      if (!known.includes(key))
        this.wrong(
          { kind: "text", value: key, at },
          `the key \`${shortened(key)}\` is not known here`,
          known.join(", "),
        );
    }
  }

  private wrong({ at }: JsonValue, what: string, expected: string): void {
    const place: JsonPlace = placeIn(this.text, at);
    this.findings.push(trouble({ rule: "capture-json", ...place, what, expected, remedies: mend }));
  }
}

function dialectOf(record: BenchRecord): Dialect {
  return {
    format: "json",
    encoding: "utf-8",
    delimiter: ",",
    decimal: ".",
    headerLines: 0,
    columns: record.channels.map(({ name, unit, role }) => ({
      name,
      use: "channel",
      written: unit,
      unit,
      factor: 1,
      role,
    })),
    interval: record.interval,
    start: record.start,
    reasons: [{ part: "format", because: "it begins with `{`" }],
  };
}

/** Writes the JSON form; reading it back gives the same record. Numbers keep the digits of single precision. */
export function writeRecord(record: BenchRecord): string {
  const channels = record.channels.map(({ name, role, unit, transducer, samples }) => {
    const head = JSON.stringify({
      name,
      unit,
      ...(role === "unknown" ? {} : { role }),
      ...(transducer === undefined ? {} : { ratio: transducer.ratio, burden: transducer.burden }),
    });
    return `    ${head.slice(0, -1)},"samples":[${Array.from(samples, sampleText).join(",")}]}`;
  });
  return [
    "{",
    `  "coilwrightRecord": ${version},`,
    `  "name": ${JSON.stringify(record.name)},`,
    `  "start": ${record.start},`,
    `  "interval": ${record.interval},`,
    `  "channels": [\n${channels.join(",\n")}\n  ]`,
    "}\n",
  ].join("\n");
}

/** The shortest text of at most nine digits that gives the same number in single precision. */
function sampleText(value: number): string {
  if (Number.isNaN(value)) return "null";
  if (value === Number.POSITIVE_INFINITY) return '"over"';
  if (value === Number.NEGATIVE_INFINITY) return '"under"';
  for (let digits = 4; digits < 9; digits++) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return String(short);
  }
  return String(Number(value.toPrecision(9)));
}
