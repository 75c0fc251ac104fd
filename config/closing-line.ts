import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one line that a script can read: `12 passed, 0 failed`, and how many were skipped, if any. */
export class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const states = modules.flatMap((each) => [...each.children.allTests()].map((test) => test.result().state));
    const count = (state: string) => states.filter((each) => each === state).length;
    // A file that did not load holds no tests, but it is no success either; nor is an error outside all tests.
    const broken = modules.filter((each) => each.errors().length > 0).length + errors.length;
    const skipped = count('skipped') + count('pending');
    const skips = skipped > 0 ? `, ${skipped} skipped` : '';
    process.stdout.write(`${count('passed')} passed, ${count('failed') + broken} failed${skips}\n`);
  }
}
