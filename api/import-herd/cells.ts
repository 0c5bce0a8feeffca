/** What stands in one cell, read as what its column is. A spreadsheet's damage to numbers is named, never repaired. */
import { distance } from 'fastest-levenshtein';
import { isBarnNumber, officialDigits } from '../../shared/cow-number.ts';
import { HOUR, type Instant, instantText, MINUTE, parseInstant } from '../../shared/instant.ts';
import { addDays, type LocalDay } from '../../shared/local-day.ts';
import { accepted, type Result, refused } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';
import type { DateReader } from './dates.ts';

const POWER = /^[+-]?\d+([.,]\d+)?e[+-]?\d+$/i;
const FRACTION = /^\d+[.,]\d+$/;
const TURNED_INTO_DATE =
  /^(\d{1,4}-(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)-\d{1,4})$/i;
const AS_TEXT = 'set the column to text, type the number again and save the list again';

/** The cell without blanks around it, and without the marks by which a spreadsheet keeps a number as text: `'007`, `="007"`. */
export const trimmed = (cell: string): string => {
  const text = cell.trim();
  const formula = /^="([^"]*)"$/.exec(text)?.[1];
  return (formula ?? text.replace(/^'(?=[0-9])/, '')).trim();
};

/** Exact text: leading zeros stay. */
export const readNumber = (text: string): Result<string> => {
  if (text === '') return refused("the cow's number is missing");
  if (POWER.test(text) && /[.,+]/.test(text))
    return refused(`a spreadsheet has turned this number into "${text}"; ${AS_TEXT}`);
  if (TURNED_INTO_DATE.test(text))
    return refused(`"${text}" looks like a number that a spreadsheet has turned into a date; ${AS_TEXT}`);
  if (FRACTION.test(text)) return refused(`"${text}" has a decimal, which no cow's number has; ${AS_TEXT}`);
  if (!isBarnNumber(text)) {
    return refused(
      officialDigits(text) === undefined
        ? `"${text.slice(0, 40)}" is not a cow's number; it has 1 to 10 letters, digits or hyphens`
        : `"${text}" is an official number, not the number in the barn; say which column has that one, with --map number="heading"`,
    );
  }
  return accepted(text);
};

/** The 15 digits without spaces. */
export const readOfficial = (text: string): Result<string> => {
  const digits = officialDigits(text.replace(/\u00a0/g, ' '));
  if (digits !== undefined) return accepted(digits);
  if (POWER.test(text))
    return refused(`a spreadsheet has turned this official number into "${text}" and its digits are lost; ${AS_TEXT}`);
  const count = text.replace(/\D/g, '').length;
  const lost = /^[\d ]+$/.test(text) && count < 15 ? '; a leading zero may have been lost' : '';
  return refused(
    `"${text.slice(0, 40)}" is not an official number: it has 15 digits${/^[\d ]+$/.test(text) ? `, this has ${count}` : ' and nothing else'}${lost}`,
  );
};

export const readLactation = (text: string): Result<number> => {
  if (text === '') return refused('the lactation is missing; a heifer that has not calved has 0');
  if (!/^\d{1,2}([.,]0+)?$/.test(text)) {
    return refused(
      `"${text.slice(0, 40)}" is not a lactation; give a whole number, 0 for a heifer that has not calved`,
    );
  }
  return accepted(Number.parseInt(text, 10));
};

/** The farm's own name of the group, whatever the case it is written in. */
export const readGroup = (text: string, groups: readonly { readonly name: string }[]): Result<string> => {
  const names = groups.map((group) => group.name);
  if (text === '') return refused(`the group is missing; the farm's groups are ${names.join(', ')}`);
  if (names.includes(text)) return accepted(text);
  const alike = names.filter((name) => fold(name) === fold(text));
  if (alike.length === 1 && alike[0] !== undefined) return accepted(alike[0]);
  const best = names
    .map((name) => ({ name, away: distance(fold(name), fold(text)) }))
    .sort((a, b) => a.away - b.away)[0];
  const near = best !== undefined && best.away <= Math.max(1, text.length / 3) ? `; did you mean "${best.name}"?` : '';
  return refused(`"${text.slice(0, 40)}" is not a group of this farm, whose groups are ${names.join(', ')}${near}`);
};

const fold = (name: string): string => name.toLowerCase().replace(/\s+/g, ' ').trim();

export const readPastDay = (text: string, dates: DateReader, today: LocalDay): Result<LocalDay> => {
  const day = dates.day(text);
  return day.ok && day.value > today
    ? refused(`${day.value} is after the day of the list, ${today}; check the day and the month`)
    : day;
};

/**
 * A running hold (R-28): `none`, `unknown`, a time with its zone, a date and time on the farm's clock, or a date,
 * which holds to the end of that day. Where the clock shows a time twice, the later is taken. Blank is unknown.
 */
export const readHold = (text: string, dates: DateReader, zone: Zone): Result<string> => {
  const lower = text.toLowerCase();
  if (lower === 'none' || lower === 'no') return accepted('none');
  if (lower === '' || lower === 'unknown' || lower === '?' || lower === 'yes') return accepted('unknown');
  if (/^\d{4}-\d{2}-\d{2}[Tt]\d{2}:\d{2}:\d{2}.*([Zz]|[+-]\d{2}:\d{2})$/.test(text)) {
    const instant = parseInstant(text);
    return instant.ok ? accepted(instantText(instant.value)) : instant;
  }
  const day = dates.day(text);
  if (day.ok) return accepted(instantText(zone.startOfDay(addDays(day.value, 1))));
  const both = dates.dayAndTime(text);
  if (both === undefined) return refused(`${day.problem}; or write "none" or "unknown"`);
  if (!both.ok) return both;
  const at = zone.at(both.value.day, both.value.minutes);
  return at === undefined
    ? refused(`"${text}" is on a date that this zone never had`)
    : accepted(instantText(lastTimeOnClock(at, zone)));
};

/** The last instant at which the clock shows what it shows at `at`. */
const lastTimeOnClock = (at: Instant, zone: Zone): Instant => {
  const wall = zone.wallMinutes(at);
  for (const step of [2 * HOUR, HOUR, 30 * MINUTE, 20 * MINUTE]) {
    const again = (at + step) as Instant;
    if (zone.wallMinutes(again) === wall) return again;
  }
  return at;
};
