/**
 * What the numbers at each place of the template have been: how many, and whether all the same. Flat
 * arrays, since V8 forgets the shapes of a solve's small objects, and what it compiled for them, as soon
 * as the last of them is collected.
 */
export class Tally {
  private first: Float64Array;
  private differs: Uint8Array;
  private count: Int32Array;

  constructor(places: number) {
    this.first = new Float64Array(places);
    this.differs = new Uint8Array(places);
    this.count = new Int32Array(places);
  }

  see(at: number, value: number): void {
    if (this.count[at] === 0) this.first[at] = value;
    else if (this.first[at] !== value) this.differs[at] = 1;
    this.count[at] += 1;
  }

  /** Makes room for a place that was not foreseen. */
  reach(at: number): void {
    const old = this.count.length;
    if (at < old) return;
    const places = Math.max(at + 1, 2 * old);
    const [first, differs, count] = [this.first, this.differs, this.count];
    this.first = new Float64Array(places);
    this.differs = new Uint8Array(places);
    this.count = new Int32Array(places);
    this.first.set(first);
    this.differs.set(differs);
    this.count.set(count);
  }

  countAt(at: number): number {
    return this.count[at];
  }

  /** The number that was there `needed` times and no other, or null. */
  constantAt(at: number, needed: number): number | null {
    return this.count[at] === needed && this.differs[at] === 0 ? this.first[at] : null;
  }
}
