/** Letters that are of one piece, and what stands for them where there is no such key. */
const SPELLED: Readonly<Record<string, string>> = { ß: 'ss', æ: 'ae', œ: 'oe', ø: 'o', đ: 'd', ð: 'd', ł: 'l', þ: 'th', ı: 'i' };

/** The same in small letters without accents: "größe" is "grosse". Other scripts than the Latin keep their marks. */
export const plainLetters = (text: string): string =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/(\p{Script=Latin})\p{M}+/gu, '$1')
    .replace(/[ßæœøđðłþı]/g, (letter) => SPELLED[letter] ?? letter)
    .normalize('NFKC');

/** An id that can be typed with gloves on: words in small letters, joined by hyphens; cut between words where that leaves half of it. */
export function slug(text: string, most: number): string {
  const whole = plainLetters(text)
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  if (whole.length <= most) return whole;
  const cut = whole.lastIndexOf('-', most);
  return whole.slice(0, cut >= most / 2 ? cut : most);
}
