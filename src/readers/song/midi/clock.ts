/** From ticks to seconds along the tempo map, for ticks that never go back. */
import type { Second } from "../../../units/si.ts";
import type { Division } from "./chunks.ts";

/** A quarter note where no tempo is given [µs]: 120 a minute. */
const usualTempo = 500_000;

/**
 * @source midi-file-1: a tick is the tempo over the division; with a time-code division the tempo does not matter
 */
export class Clock {
  /** Seconds of one tick from here on. */
  tickLength: Second;
  private readonly division: Division;
  private fromTick = 0;
  private fromTime: Second;

  constructor(division: Division, start: Second) {
    this.division = division;
    this.fromTime = start;
    this.tickLength = "tick" in division ? division.tick : usualTempo / 1e6 / division.ticksPerQuarter;
  }

  at(tick: number): Second {
    return this.fromTime + (tick - this.fromTick) * this.tickLength;
  }

  /** @param tempo microseconds of a quarter note from this tick on */
  change(tick: number, tempo: number): void {
    if ("tick" in this.division) return;
    this.fromTime = this.at(tick);
    this.fromTick = tick;
    this.tickLength = tempo / 1e6 / this.division.ticksPerQuarter;
  }
}
