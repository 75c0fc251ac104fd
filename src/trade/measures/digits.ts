/**
 * The value with so many significant digits, and all of a whole number: 0.412, 4.12, 41.2, 412, 4120. No zeros at the end, no
 * power of ten, no minus before a zero.
 */
export function digits(value: number, significant = 3): string {
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(value)) + 1e-12);
  const text = value.toFixed(Math.min(20, Math.max(0, significant - 1 - magnitude)));
  return text.includes('.') ? text.replace(/\.?0+$/, '').replace(/^-0$/, '0') : text;
}

/** The same as a number: where two units meet, what is shown decides, so that 999.7 mL is 1 L, not 1000 mL. */
export const rounded = (value: number, significant = 3): number => Number(digits(value, significant));
