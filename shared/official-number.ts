/**
 * What the 15 digits of an official number say, and the checks of two kinds of tag. Always text, never a number:
 * a code such as 036 keeps its zero. A printed tag may exceed what an electronic one can hold, so the electronic
 * limit is asked for electronic tags alone.
 */
import { officialDigits } from './cow-number.ts';
import { accepted, type Result, refused } from './refusal.ts';

export interface OfficialNumber {
  /** Three digits: a country (ISO 3166 numeric) or, from 900 on, a maker of tags. */
  readonly code: string;
  readonly issuer: 'country' | 'maker';
  /** The other twelve. */
  readonly animal: string;
}

/** ISO 11784 gives the animal's part 38 bits. */
const LARGEST_ELECTRONIC = 274_877_906_943;

/** The parts of an official number, written with or without spaces. */
export const parseOfficialNumber = (text: string): Result<OfficialNumber> => {
  const digits = officialDigits(text);
  if (digits === undefined) {
    return refused(`"${text.slice(0, 40)}" is not an official number; write its 15 digits, spaces allowed`);
  }
  const code = digits.slice(0, 3);
  return accepted({ code, issuer: code >= '900' ? 'maker' : 'country', animal: digits.slice(3) });
};

/** Whether an electronic tag can carry this number at all. Not to be asked of printed tags. */
export const fitsElectronicTag = ({ animal }: OfficialNumber): boolean => Number(animal) <= LARGEST_ELECTRONIC;

export interface UkPrintedTag {
  /** Six digits. */
  readonly herd: string;
  /** Five digits, without the check digit before them. */
  readonly animal: string;
}

const UK_TAG = /^UK ?(\d{6}) ?([1-7])(\d{5})$/;

/** Herd and animal, eleven digits in a row, modulo 7, plus 1. */
export const ukCheckDigit = ({ herd, animal }: UkPrintedTag): number => (Number(`${herd}${animal}`) % 7) + 1;

/** Reads a printed tag such as `UK 123450 600001`; refuses one whose check digit does not agree. */
export const parseUkPrintedTag = (text: string): Result<UkPrintedTag> => {
  const parts = UK_TAG.exec(text);
  if (parts === null) {
    return refused(`"${text.slice(0, 40)}" is not a printed UK tag; write it like UK 123450 600001`);
  }
  const [, herd = '', check = '', animal = ''] = parts;
  const wanted = ukCheckDigit({ herd, animal });
  return Number(check) === wanted
    ? accepted({ herd, animal })
    : refused(`"${text}" has the check digit ${check} where ${wanted} was expected; read the tag again`);
};
