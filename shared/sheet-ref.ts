/**
 * The short code of an issued set of sheets: eight symbols and a check symbol, from nineteen that nobody mistakes for
 * one another in handwriting or on a bad copy (no 0 O, 1 I L, 2 Z, 5 S, 6 G, 8 B, U V, D, Q). Nineteen is prime, so the
 * weighted check catches every single wrong symbol and every swap of two.
 */
import { accepted, type Result, refused } from './refusal.ts';

const SYMBOLS = '3479ACEFHJKMNPRTWXY';
const LENGTH = 8;

const checkSymbol = (symbols: string): string => {
  const sum = [...symbols].reduce((total, symbol, place) => total + SYMBOLS.indexOf(symbol) * (place + 1), 0);
  return SYMBOLS[sum % SYMBOLS.length] ?? '';
};

/** The ref that follows from hex digits (at least 16), written `ACEF-3479-K`. */
export const sheetRef = (hex: string): string => {
  let rest = BigInt(`0x${hex}`);
  let symbols = '';
  for (let place = 0; place < LENGTH; place += 1) {
    symbols += SYMBOLS[Number(rest % BigInt(SYMBOLS.length))];
    rest /= BigInt(SYMBOLS.length);
  }
  return `${symbols.slice(0, 4)}-${symbols.slice(4)}-${checkSymbol(symbols)}`;
};

/** Reads a ref as a person types it: small letters, spaces and missing hyphens are fine, a wrong symbol is not. */
export const parseSheetRef = (text: string): Result<string> => {
  const symbols = text.toUpperCase().replace(/[\s-]/g, '');
  if (symbols.length !== LENGTH + 1 || [...symbols].some((symbol) => !SYMBOLS.includes(symbol))) {
    return refused(
      `"${text.slice(0, 30)}" is not a sheet's ref; copy the nine symbols at the foot of the sheet, like ACEF-3479-K`,
    );
  }
  const body = symbols.slice(0, LENGTH);
  if (checkSymbol(body) !== symbols[LENGTH]) {
    return refused(`"${text}" has a symbol wrong or two swapped; read the ref from the sheet again`);
  }
  return accepted(`${body.slice(0, 4)}-${body.slice(4)}-${symbols[LENGTH]}`);
};
