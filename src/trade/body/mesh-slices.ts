/** Work that may be laid down at each `yield`, so that others get a turn; what it returns does not depend on that. */
export type Sliced<T> = Generator<void, T>;

/** So many triangles, or sides of them, are looked at without a break: some tens of milliseconds at most. */
const SLICE = 150_000;

/** Goes through `count` things; `look` gets the next run of them, up to but without `until`. */
export function* inSlices(count: number, look: (from: number, until: number) => void): Sliced<void> {
  for (let from = 0; from < count; from += SLICE) {
    look(from, Math.min(count, from + SLICE));
    yield;
  }
}

/** All of it in one go. */
export function inOneGo<T>(work: Sliced<T>): T {
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}
