/** The voices of a file: one for each track and channel that has notes, named after them. */
import type { Voice } from "../../../description/song.ts";
import { uniqueNames } from "../names.ts";

interface Part {
  readonly track: number;
  /** Port × 16 + channel. */
  readonly channel: number;
}

export class Voices {
  private readonly indices = new Map<number, number>();
  private readonly parts: Part[] = [];
  private readonly channelsOf = new Map<number, number>();

  /** Index of the voice of a track (from 0) and channel; made where it is new. */
  of(track: number, channel: number): number {
    const place = track * 2048 + channel;
    const known = this.indices.get(place);
    if (known !== undefined) return known;
    this.indices.set(place, this.parts.length);
    this.parts.push({ track, channel });
    this.channelsOf.set(track, (this.channelsOf.get(track) ?? 0) + 1);
    return this.parts.length - 1;
  }

  /** @param names of the tracks; empty where they have none */
  named(names: readonly string[]): readonly Voice[] {
    const unique = uniqueNames(this.parts.map((part) => this.nameOf(part, names)));
    return this.parts.map((part, index) => ({ name: unique[index] ?? "", channel: part.channel % 16 }));
  }

  private nameOf({ track, channel }: Part, names: readonly string[]): string {
    const shared = (this.channelsOf.get(track) ?? 0) > 1;
    const own = names[track] ?? "";
    const port = channel >= 16 ? ` of port ${Math.floor(channel / 16) + 1}` : "";
    const called = `channel ${(channel % 16) + 1}${port}`;
    if (own !== "") return shared ? `${own}, ${called}` : own;
    return names.length > 1 ? `track ${track + 1}, ${called}` : called;
  }
}
