/** Throws of one input, from the seed and its number alone, so that any input can be made again. */
export class Dice {
  private state: number;
  constructor(seed: number, input: number) {
    this.state = (Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) + Math.imul(input + 1, 0xc2b2ae35)) >>> 0;
    this.unit();
  }
  /** mulberry32 (public domain, by name from memory). */
  unit(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
  below(n: number): number {
    return Math.floor(this.unit() * n);
  }
  chance(p: number): boolean {
    return this.unit() < p;
  }
  of<T>(list: readonly T[]): T {
    return list[this.below(list.length)];
  }
  some<T>(most: number, make: () => T): T[] {
    return Array.from({ length: this.below(most + 1) }, make);
  }
}
