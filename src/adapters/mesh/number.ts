/** From a file of decimal numbers, which `0x10` is not; NaN where it is none. */
export function decimalIn(text: string, start: number, end: number): number {
  if (end <= start) return NaN;
  // After a leading zero only these letters make it a number of another base.
  if (text.charCodeAt(start) === 48 && end > start + 1 && isBase(text.charCodeAt(start + 1))) return NaN;
  return Number(text.slice(start, end));
}

/** x, o and b, small or large. */
const isBase = (code: number): boolean => {
  const small = code | 32;
  return small === 120 || small === 111 || small === 98;
};
