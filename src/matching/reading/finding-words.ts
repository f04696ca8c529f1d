/** How a finding about a record is put together. */
import type { Finding, Severity } from "../../catalogue/finding.ts";
import type { Channel } from "../../description/record.ts";
import { formatQuantity } from "../../units/format.ts";
import type { ChannelReading } from "./channel.ts";

/** A channel that was read, and its place in the record. */
export interface Read {
  readonly index: number;
  readonly channel: Channel;
  readonly reading: ChannelReading;
}

type Said = Omit<Finding, "evidence" | "remedies" | "severity"> & {
  readonly severity?: Severity;
  readonly evidence?: readonly string[];
  readonly remedies?: readonly string[];
};

export function say({ severity = "look", evidence = [], remedies = [], ...rest }: Said): Finding {
  return { ...rest, severity, evidence, remedies: remedies.map((says) => ({ says, edits: [] })) };
}

export const pathOf = (index: number) => `record.channels.${index}`;
export const hertz = (value: number) => formatQuantity(value, "Hz");
export const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;
