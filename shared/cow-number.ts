/**
 * Numbers of cows: the barn number on her tag or brand, exact text (`007` is not `7`), and the 15-digit official
 * number, which is text too (a leading zero stays) and may be written with spaces.
 */
const BARN_NUMBER = /^[0-9A-Za-z-]{1,10}$/;
const OFFICIAL = /^\d{15}$/;

export const isBarnNumber = (text: string): boolean => BARN_NUMBER.test(text);

/** The 15 digits without spaces, or `undefined` where the text is not an official number. */
export const officialDigits = (text: string): string | undefined => {
  const digits = text.replace(/ /g, '');
  return OFFICIAL.test(digits) ? digits : undefined;
};

/** The number without its leading zeros, for finding a tag that was read short. */
export const withoutLeadingZeros = (number: string): string => number.replace(/^0+(?=.)/, '');

/** Order on paper: by the number as a number where it is one, then by its text. */
export const byCowNumber = (a: string, b: string): number => {
  const first = numericPart(a);
  const second = numericPart(b);
  if (first !== second) return first < second ? -1 : 1;
  return a < b ? -1 : a > b ? 1 : 0;
};

/** The first digits in it as a number. Read by hand: lists of thousands are put in order by it. */
const numericPart = (number: string): number => {
  let value = -1;
  for (let at = 0; at < number.length; at += 1) {
    const digit = number.charCodeAt(at) - 48;
    if (digit >= 0 && digit <= 9) value = Math.max(value, 0) * 10 + digit;
    else if (value >= 0) break;
  }
  return value < 0 ? Number.MAX_SAFE_INTEGER : value;
};
