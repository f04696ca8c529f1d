/** The events of a song that matter for what sounds, packed: a file of 8 MiB holds millions of them. */

/** What an event is. The first four are the status nibbles of the channel messages themselves. */
export const event = {
  noteOff: 0x8,
  noteOn: 0x9,
  control: 0xb,
  bend: 0xe,
  reset: 0xf0,
  tempo: 0xf1,
  trackEnd: 0xf2,
} as const;

export class EventList {
  length = 0;
  tick = new Float64Array(64);
  /** Offset in the file. */
  byte = new Uint32Array(64);
  kind = new Uint8Array(64);
  /** Port × 16 + channel. */
  channel = new Uint16Array(64);
  track = new Uint16Array(64);
  /** First data byte × 128 + the second; for a tempo the microseconds of a quarter note. */
  data = new Uint32Array(64);

  add(tick: number, byte: number, kind: number, channel: number, track: number, data: number): void {
    if (this.length === this.tick.length) this.grow();
    const at = this.length++;
    this.tick[at] = tick;
    this.byte[at] = byte;
    this.kind[at] = kind;
    this.channel[at] = channel;
    this.track[at] = track;
    this.data[at] = data;
  }

  private grow(): void {
    const size = 2 * this.length;
    const grown = <A extends Float64Array | Uint32Array | Uint16Array | Uint8Array>(from: A, into: A): A => {
      into.set(from);
      return into;
    };
    this.tick = grown(this.tick, new Float64Array(size));
    this.byte = grown(this.byte, new Uint32Array(size));
    this.kind = grown(this.kind, new Uint8Array(size));
    this.channel = grown(this.channel, new Uint16Array(size));
    this.track = grown(this.track, new Uint16Array(size));
    this.data = grown(this.data, new Uint32Array(size));
  }

  /** Indices in order of tick; where ticks are equal, in order of track and place in it. */
  order(): readonly number[] {
    // The tracks are runs already in order, which the stable sort merges in nearly linear time.
    return Array.from({ length: this.length }, (_, index) => index).sort(
      (a, b) => (this.tick[a] ?? 0) - (this.tick[b] ?? 0),
    );
  }
}
