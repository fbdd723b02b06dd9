/** Numbers in a chunk; small enough that little stays unused, large enough that few are made. */
const chunkLength = 1 << 14;

/**
 * Collects numbers without an object each and without copying as it grows; the chunks are let go as
 * they are taken, so that a long list is not held twice.
 */
export class Growing<A extends Float64Array | Int32Array> {
  private readonly make: (length: number) => A;
  private chunks: A[] = [];
  private last: A | null = null;
  private filled = chunkLength;
  length = 0;

  constructor(make: (length: number) => A) {
    this.make = make;
  }

  push(value: number): void {
    if (this.filled === chunkLength || this.last === null) {
      this.last = this.make(chunkLength);
      this.chunks.push(this.last);
      this.filled = 0;
    }
    this.last[this.filled] = value;
    this.filled += 1;
    this.length += 1;
  }

  /** Calls back for each number in order. */
  forEach(visit: (value: number, index: number) => void): void {
    let index = 0;
    for (const chunk of this.chunks) {
      const end = Math.min(chunkLength, this.length - index);
      for (let i = 0; i < end; i += 1) visit(chunk[i]!, index + i);
      index += end;
    }
  }

  at(index: number): number {
    return this.chunks[index >> 14]![index & (chunkLength - 1)]!;
  }

  /** All numbers in one array; the list is empty afterwards. */
  take(): A {
    const whole = this.make(this.length);
    this.chunks.forEach((chunk, i) => {
      const start = i * chunkLength;
      whole.set(
        start + chunkLength <= whole.length ? chunk : (chunk.subarray(0, whole.length - start) as A),
        start,
      );
    });
    this.drop();
    return whole;
  }

  /** Forgets all numbers. */
  drop(): void {
    this.chunks = [];
    this.last = null;
    this.filled = chunkLength;
    this.length = 0;
  }
}

export const growingNumbers = () => new Growing<Float64Array>((length) => new Float64Array(length));
export const growingIntegers = () => new Growing<Int32Array>((length) => new Int32Array(length));
