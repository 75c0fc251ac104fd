/** Whole minutes since the epoch, both ends included: planning knows no seconds, since nobody works by them. */
export interface Span {
  readonly from: number;
  readonly until: number;
}

/** A set of whole minutes: spans in order, none empty, none touching the next. */
export type Spans = readonly Span[];

export const EVER: Spans = [{ from: Number.NEGATIVE_INFINITY, until: Number.POSITIVE_INFINITY }];

/** The set that these spans make up, in whatever order, overlapping or empty as they may be. */
export function spansOf(list: readonly Span[]): Spans {
  const sorted = list.filter((span) => span.from <= span.until).sort((a, b) => a.from - b.from);
  const joined: Span[] = [];
  for (const span of sorted) {
    const last = joined.at(-1);
    if (last && span.from <= last.until + 1)
      joined[joined.length - 1] = { from: last.from, until: Math.max(last.until, span.until) };
    else joined.push(span);
  }
  return joined;
}

/** What both have. */
export function intersect(one: Spans, other: Spans): Spans {
  const both: Span[] = [];
  for (let i = 0, j = 0; i < one.length && j < other.length; ) {
    const [a, b] = [one[i] as Span, other[j] as Span];
    const span = { from: Math.max(a.from, b.from), until: Math.min(a.until, b.until) };
    if (span.from <= span.until) both.push(span);
    if (a.until < b.until) i += 1;
    else j += 1;
  }
  return both;
}

/** What `one` has and `other` has not. */
export function without(one: Spans, other: Spans): Spans {
  const gaps: Span[] = [];
  let from = Number.NEGATIVE_INFINITY;
  for (const span of other) {
    if (span.from > from) gaps.push({ from, until: span.from - 1 });
    from = span.until + 1;
  }
  if (from < Number.POSITIVE_INFINITY) gaps.push({ from, until: Number.POSITIVE_INFINITY });
  return intersect(one, gaps);
}

/** The starts from which `minutes` of work lie in one span of `free`; work of no minutes can be at any time. */
export const startsWithin = (free: Spans, minutes: number): Spans =>
  minutes === 0
    ? EVER
    : free.flatMap(({ from, until }) => (until - from + 1 >= minutes ? [{ from, until: until - minutes + 1 }] : []));

/** The same minutes, `by` later. */
export const shifted = (spans: Spans, by: number): Spans =>
  spans.map(({ from, until }) => ({ from: from + by, until: until + by }));
