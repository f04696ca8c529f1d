/**
 * One burst of a bridge that follows its current and floats after the drive, computed forwards: driven, then giving its energy back through
 * the diodes, then open with the secondary ringing alone. Inductances are 1, the bus is 1 at the start, times are counted in values.
 */

/** What the burst hangs on. Angular frequencies and rates in radians and 1 per value, times in values. */
export interface FloatingCircuit {
  /** Of primary and secondary alone, and the loss of each (angular frequency over Q). */
  readonly primary: { readonly angular: number; readonly loss: number };
  readonly secondary: { readonly angular: number; readonly loss: number };
  readonly coupling: number;
  /** Start of the drive, and how long it lasts. */
  readonly start: number;
  readonly length: number;
  /** From the current's zero to the bridge's change; below 0 it comes before. */
  readonly lag: number;
  /** Current below which the bridge does not follow, over that of the first half-cycle. */
  readonly threshold: number;
  /** Voltage at which the bridge takes energy back, over that with which it drives. */
  readonly back: number;
  /** By how much the bus falls for each unit of the tank's voltage that is charged. */
  readonly sag: number;
}

/** What a channel shows: columns of the burst whose sum, each with an amplitude of its own, is the signal. */
export const floatingViews = {
  current: ["i1"],
  top: ["u2"],
  flux: ["i2", "i1"],
  loop: ["slope2", "slope1"],
} as const satisfies Record<string, readonly Quantity[]>;
export type FloatingView = keyof typeof floatingViews;

type Quantity = "i1" | "i2" | "u2" | "slope1" | "slope2";

export interface FloatingBurst {
  /** Values at from, from + 1, … of each quantity of the view. */
  readonly columns: readonly Float64Array[];
  /** When the bridge changed between start and end. */
  readonly changes: readonly number[];
  /** When the primary's current stopped for good; undefined where it still flows at the last value. */
  readonly stopped: number | undefined;
}

/** Terms of the Taylor series over one value, a tenth of a cycle or less: what is left out is below 1e-6. */
const terms = 7;
const rootSteps = 30;
/** Values to which the place of a change is found. */
const near = 1e-8;
/** A bridge does not change again within this part of a cycle. */
const blanked = 0.25;

/** @param window  values from `from` up to `to`, the last one not included */
export function floatingBurst(
  circuit: FloatingCircuit,
  { view, from, to }: { view: FloatingView; from: number; to: number },
): FloatingBurst {
  const state = new Swinging(circuit);
  const quantities: readonly Quantity[] = floatingViews[view];
  const columns = quantities.map(() => new Float64Array(Math.max(0, to - from)));
  for (let n = Math.max(from, Math.ceil(circuit.start)); n < to; n++) {
    state.advanceTo(n);
    for (const [c, quantity] of quantities.entries()) columns[c]![n - from] = state.show(quantity);
  }
  return { columns, changes: state.changes, stopped: state.isOpen() ? state.stopped : undefined };
}

class Swinging {
  readonly changes: number[] = [];
  stopped: number | undefined;
  private readonly circuit: FloatingCircuit;
  private now: number;
  private mode: "driven" | "returning" | "open" = "driven";
  /** Sign and height of the bridge's output. */
  private sign = 1;
  private bus = 1;
  /** Tank's voltage at the last change. */
  private chargedAt = 0;
  private change = Number.POSITIVE_INFINITY;
  private free: number;
  private readonly leak: number;
  private readonly square1: number;
  private readonly square2: number;
  private readonly lead: number;
  private readonly delay: number;
  private readonly floor: number;
  private i1 = 0;
  private u1 = 0;
  private i2 = 0;
  private u2 = 0;
  /** The state that `look` computed. */
  private nextI1 = 0;
  private nextU1 = 0;
  private nextI2 = 0;
  private nextU2 = 0;
  /** What a step over a whole value does while current may flow: [4 × 5] on the state and the output. */
  private readonly whole = new Float64Array(20);
  private readonly taylor = new Float64Array(4 * (terms + 1));

  constructor(circuit: FloatingCircuit) {
    this.circuit = circuit;
    this.now = circuit.start;
    this.leak = 1 - circuit.coupling ** 2;
    this.square1 = circuit.primary.angular ** 2;
    this.square2 = circuit.secondary.angular ** 2;
    this.lead = Math.max(0, -circuit.lag);
    this.delay = Math.max(0, circuit.lag);
    this.floor = circuit.threshold / circuit.primary.angular;
    this.free = circuit.start + this.blank();
    this.prepare();
  }

  private prepare(): void {
    for (let column = 0; column < 5; column++) {
      [this.i1, this.u1, this.i2, this.u2] = [0, 1, 2, 3].map((n) => (n === column ? 1 : 0)) as [
        number,
        number,
        number,
        number,
      ];
      this.expand(column === 4 ? 1 : 0);
      this.evaluate(1);
      this.whole.set([this.nextI1, this.nextU1, this.nextI2, this.nextU2], 4 * column);
    }
    [this.i1, this.u1, this.i2, this.u2] = [0, 0, 0, 0];
  }

  isOpen(): boolean {
    return this.mode === "open";
  }

  advanceTo(to: number): void {
    const end = this.circuit.start + this.circuit.length;
    while (this.now < to) {
      let stop = Math.min(to, this.change);
      if (this.mode === "driven" && end < stop) stop = Math.max(end, this.now);
      if (stop > this.now) this.go(stop);
      if (this.mode === "driven" && this.now >= end) this.stopDrive();
      else if (this.now >= this.change) this.turn();
    }
  }

  show(quantity: Quantity): number {
    if (quantity === "i1" || quantity === "i2" || quantity === "u2") return this[quantity];
    const [slope1, slope2] = this.slopes();
    return quantity === "slope1" ? slope1 : slope2;
  }

  private blank(): number {
    return (blanked * 2 * Math.PI) / this.circuit.primary.angular;
  }

  private output(): number {
    return this.sign * this.bus * (this.mode === "returning" ? this.circuit.back : 1);
  }

  private slopes(): readonly [number, number] {
    const { i1, u1, i2, u2, leak, circuit } = this;
    const k = circuit.coupling;
    const e2 = -u2 - circuit.secondary.loss * i2;
    if (this.mode === "open") return [0, e2];
    const e1 = this.output() - u1 - circuit.primary.loss * i1;
    return [(e1 - k * e2) / leak, (e2 - k * e1) / leak];
  }

  /** The bridge's output where no current flows. */
  private floating(): number {
    const { circuit } = this;
    return this.nextU1 + circuit.coupling * (-this.nextU2 - circuit.secondary.loss * this.nextI2);
  }

  /** Up to `stop`, or to something that happens before. */
  private go(stop: number): void {
    const span = stop - this.now;
    this.look(span);
    const happens = this.mode === "driven" ? this.change === Number.POSITIVE_INFINITY && stop > this.free : true;
    if (!happens || this.crossed() <= 0) {
      this.take(stop);
      return;
    }
    const earliest = this.mode === "driven" ? Math.max(0, this.free - this.now) : 0;
    const after = this.rootIn(earliest, span);
    this.take(this.now + after);
    this.happen();
  }

  /** Above 0 where the state that was looked at is past what happens next. */
  private crossed(): number {
    if (this.mode === "open") return Math.abs(this.floating()) - this.bus * this.circuit.back;
    if (this.mode === "returning") return this.nextI1 * this.sign;
    return -(this.nextI1 + (this.lead > 0 ? this.lead * this.nextSlope() : 0)) * this.sign - this.floor;
  }

  private nextSlope(): number {
    const k = this.circuit.coupling;
    const e2 = -this.nextU2 - this.circuit.secondary.loss * this.nextI2;
    const e1 = this.output() - this.nextU1 - this.circuit.primary.loss * this.nextI1;
    return (e1 - k * e2) / this.leak;
  }

  /** Regula falsi with the Illinois rule: `crossed` is at most 0 at `low` and above 0 at `high`. */
  private rootIn(low: number, high: number): number {
    let [a, b] = [low, high];
    let atB = this.crossed();
    this.expand();
    this.evaluate(a);
    let atA = this.crossed();
    if (atA > 0) return a;
    for (let n = 0; n < rootSteps && b - a > near; n++) {
      const middle = a + ((b - a) * -atA) / (atB - atA);
      this.evaluate(middle);
      const at = this.crossed();
      if (at > 0) {
        const close = b - middle < near;
        [b, atB, atA] = [middle, at, atA / 2];
        if (close) break;
      } else {
        const close = middle - a < near;
        [a, atA, atB] = [middle, at, atB / 2];
        if (close) break;
      }
    }
    this.evaluate(b);
    return b;
  }

  private happen(): void {
    if (this.mode === "driven") {
      this.change = this.now + this.delay;
      if (this.delay === 0) this.turn();
      return;
    }
    if (this.mode === "returning") {
      this.charge();
      this.i1 = 0;
      this.stopped = this.now;
    }
    const floating = this.floating();
    const limit = this.bus * this.circuit.back;
    const conducts = this.mode === "open" || Math.abs(floating) > limit;
    this.mode = conducts ? "returning" : "open";
    this.sign = Math.sign(floating);
    this.chargedAt = this.u1;
  }

  private turn(): void {
    this.charge();
    this.sign = -this.sign;
    this.changes.push(this.now);
    this.change = Number.POSITIVE_INFINITY;
    this.free = this.now + this.blank();
  }

  private stopDrive(): void {
    this.charge();
    this.change = Number.POSITIVE_INFINITY;
    this.mode = "returning";
    this.sign = this.i1 === 0 ? -this.sign : -Math.sign(this.i1);
  }

  /** What the half-cycle has taken from the bus, or given back. */
  private charge(): void {
    this.bus -= this.circuit.sag * this.sign * (this.u1 - this.chargedAt);
    this.chargedAt = this.u1;
  }

  private take(at: number): void {
    this.now = at;
    this.i1 = this.nextI1;
    this.u1 = this.nextU1;
    this.i2 = this.nextI2;
    this.u2 = this.nextU2;
  }

  /** Computes the state `h` later under the output as it stands. */
  private look(h: number): void {
    if (h === 1 && this.mode !== "open") this.lookWhole(this.output());
    else {
      this.expand();
      this.evaluate(h);
    }
  }

  private lookWhole(v: number): void {
    const { whole: m, i1, u1, i2, u2 } = this;
    this.nextI1 = m[0]! * i1 + m[4]! * u1 + m[8]! * i2 + m[12]! * u2 + m[16]! * v;
    this.nextU1 = m[1]! * i1 + m[5]! * u1 + m[9]! * i2 + m[13]! * u2 + m[17]! * v;
    this.nextI2 = m[2]! * i1 + m[6]! * u1 + m[10]! * i2 + m[14]! * u2 + m[18]! * v;
    this.nextU2 = m[3]! * i1 + m[7]! * u1 + m[11]! * i2 + m[15]! * u2 + m[19]! * v;
  }

  /** Terms of Taylor's series from the state as it stands. */
  private expand(output = this.mode === "open" ? 0 : this.output()): void {
    const { leak, square1, square2, circuit, taylor } = this;
    const [k, r1, r2] = [circuit.coupling, circuit.primary.loss, circuit.secondary.loss];
    const open = this.mode === "open";
    let [a, b, c, d] = [this.i1, this.u1, this.i2, this.u2];
    let v = output;
    for (let n = 0; n <= terms; n++) {
      const at = 4 * n;
      taylor[at] = a;
      taylor[at + 1] = b;
      taylor[at + 2] = c;
      taylor[at + 3] = d;
      const part = 1 / (n + 1);
      const e2 = -d - r2 * c;
      const e1 = v - b - r1 * a;
      b = open ? 0 : part * square1 * a;
      d = part * square2 * c;
      a = open ? 0 : (part * (e1 - k * e2)) / leak;
      c = open ? part * e2 : (part * (e2 - k * e1)) / leak;
      // Only the first derivative holds the drive itself.
      v = 0;
    }
  }

  private evaluate(h: number): void {
    const { taylor } = this;
    let [a, b, c, d] = [0, 0, 0, 0];
    for (let at = 4 * terms; at >= 0; at -= 4) {
      a = a * h + taylor[at]!;
      b = b * h + taylor[at + 1]!;
      c = c * h + taylor[at + 2]!;
      d = d * h + taylor[at + 3]!;
    }
    this.nextI1 = a;
    this.nextU1 = b;
    this.nextI2 = c;
    this.nextU2 = d;
  }
}
