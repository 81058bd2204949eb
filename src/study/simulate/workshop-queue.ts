/** A job waiting for or on the bench. */
interface Waiting<T> {
  readonly job: T;
  readonly arrived: number;
}

/**
 * First come, first served: `benches` jobs can be worked on at once, each for as many days as `workDays` says.
 * Time is in days and may be fractional. `serve` lets the queue run up to a time and hands out what was finished.
 */
export class WorkshopQueue<T> {
  private readonly waiting: Waiting<T>[] = [];
  private next = 0;
  private readonly freeAt: number[];
  constructor(
    benches: number,
    private readonly workDays: (job: T) => number,
  ) {
    this.freeAt = new Array(benches).fill(Number.NEGATIVE_INFINITY);
  }

  arrive(job: T, at: number): void {
    this.waiting.push({ job, arrived: at });
  }

  /** Jobs begun by `until`, with when each arrives, begins and is finished; finishing may lie after `until`. */
  serve(until: number): { job: T; arrived: number; begun: number; finished: number }[] {
    const begun = [];
    while (this.next < this.waiting.length) {
      const bench = this.freeAt.indexOf(Math.min(...this.freeAt));
      const at = Math.max(this.freeAt[bench], this.waiting[this.next].arrived);
      if (at > until) break;
      const { job, arrived } = this.waiting[this.next++];
      const finished = at + this.workDays(job);
      this.freeAt[bench] = finished;
      begun.push({ job, arrived, begun: at, finished });
    }
    return begun;
  }
}
