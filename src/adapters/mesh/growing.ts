/** Numbers that come one by one, of which nobody can know how many there will be: no file is believed what it announces. */
export class Growing<T extends Float64Array | Uint32Array> {
  private values: T;
  length = 0;

  private readonly sized: new (
    length: number,
  ) => T;

  constructor(sized: new (length: number) => T) {
    this.sized = sized;
    this.values = new sized(1024);
  }

  add(value: number): void {
    if (this.length === this.values.length) {
      const larger = new this.sized(this.length * 2);
      larger.set(this.values);
      this.values = larger;
    }
    this.values[this.length] = value;
    this.length += 1;
  }

  at(index: number): number {
    return this.values[index] as number;
  }

  /** What has been added, without a copy. */
  all(): T {
    return this.values.subarray(0, this.length) as T;
  }
}
