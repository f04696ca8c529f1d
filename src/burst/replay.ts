/** Steps of a trace, expanded again. */
import { type Branch, branchesOf, ways } from "../circuit/branch.ts";
import type { BurstNetwork } from "../circuit/network.ts";
import { StepSeries } from "./series.ts";
import type { Rates } from "./solve.ts";
import type { StepTrace } from "./trace.ts";

export class Replay {
  readonly series: StepSeries;
  branch: Branch;
  sparking = false;
  readonly #trace: StepTrace;
  readonly #rates: Rates;
  readonly #branches: readonly Branch[];
  readonly #blocked: Branch;

  constructor(network: BurstNetwork, trace: StepTrace, rates: Rates) {
    this.series = new StepSeries(network);
    const branches = branchesOf(network);
    this.#trace = trace;
    this.#rates = rates;
    this.#branches = ways.map((way) => branches[way]);
    this.#blocked = branches.blocked;
    this.branch = branches.blocked;
  }

  /** Expands a step of the trace over the time it was in force. */
  expand(step: number): void {
    const code = this.#trace.branchOf(step);
    this.branch = this.#branches[code % 8] ?? this.#blocked;
    this.sparking = code >= 8;
    this.series.expand({
      x: this.#trace.stateOf(step),
      branch: this.branch,
      sparking: this.sparking,
      rate: this.sparking ? this.#rates.sparking : this.#rates.quiet,
      duration: this.#trace.durationOf(step),
    });
  }

  /** A state that stands still: for a burst that ended before it began. */
  stand(x: Float64Array): void {
    this.branch = this.#blocked;
    this.sparking = false;
    this.series.expand({ x, branch: this.branch, sparking: false, rate: 0, duration: 0 });
  }
}
