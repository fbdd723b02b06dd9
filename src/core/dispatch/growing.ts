/** Numbers in the first chunk; each later one has twice as many as the one before. */
const first = 1024;

/** Chunk of an index, and the index at which a chunk starts. */
const chunkOf = (index: number) => 31 - Math.clz32(index / first + 1);
const startOf = (chunk: number) => ((1 << chunk) - 1) * first;

/**
 * Collects numbers without an object each and without copying as it grows. Pages of a large array that
 * are never written take no memory, so zeros are not written; chunks are let go as they are taken.
 */
export class Growing<A extends Float64Array | Int32Array | Uint16Array> {
  private readonly make: (length: number) => A;
  private chunks: A[] = [];
  private last: A | null = null;
  private filled = 0;
  length = 0;

  constructor(make: (length: number) => A) {
    this.make = make;
  }

  push(value: number): void {
    if (this.last === null || this.filled === this.last.length) {
      this.last = this.make(first << this.chunks.length);
      this.chunks.push(this.last);
      this.filled = 0;
    }
    if (value !== 0) this.last[this.filled] = value;
    this.filled += 1;
    this.length += 1;
  }

  /** Calls back for each number in order. */
  forEach(visit: (value: number, index: number) => void): void {
    this.chunks.forEach((chunk, k) => {
      const start = startOf(k);
      const end = Math.min(chunk.length, this.length - start);
      for (let i = 0; i < end; i += 1) visit(chunk[i]!, start + i);
    });
  }

  at(index: number): number {
    const chunk = chunkOf(index);
    return this.chunks[chunk]![index - startOf(chunk)]!;
  }

  /** All numbers in one array; the list is empty afterwards. */
  take(): A {
    const whole = this.make(this.length);
    this.chunks.forEach((chunk, k) => {
      const start = startOf(k);
      const end = Math.min(chunk.length, whole.length - start);
      for (let i = 0; i < end; i += 1) if (chunk[i] !== 0) whole[start + i] = chunk[i]!;
    });
    this.drop();
    return whole;
  }

  /** Forgets all numbers. */
  drop(): void {
    this.chunks = [];
    this.last = null;
    this.filled = 0;
    this.length = 0;
  }
}

export const growingNumbers = () => new Growing<Float64Array>((length) => new Float64Array(length));
export const growingKinds = () => new Growing<Uint16Array>((length) => new Uint16Array(length));
export const growingIntegers = () => new Growing<Int32Array>((length) => new Int32Array(length));
