/**
 * A point in time, as milliseconds since 1970-01-01T00:00:00Z. Rules count in instants, so a clock
 * change never shortens or lengthens a hold. Made only by `parseInstant` and arithmetic here.
 */
import { accepted, type Result, refused } from './refusal.ts';

declare const instantBrand: unique symbol;
export type Instant = number & { readonly [instantBrand]: true };

const RFC_3339 = /^(\d{4})-(\d{2})-(\d{2})[Tt](\d{2}):(\d{2}):(\d{2})(\.\d+)?([Zz]|[+-](\d{2}):(\d{2}))?$/;

export const MINUTE = 60_000;
export const HOUR = 3_600_000;
export const DAY = 86_400_000;

/**
 * Reads an RFC 3339 date-time. Wanted: a zone offset, at most milliseconds, a date that exists.
 * Refuses everything else with a sentence; never guesses a zone.
 */
export const parseInstant = (text: string): Result<Instant> => {
  const plain = plainInstant(text);
  if (plain !== undefined) return accepted(plain as Instant);
  const parts = RFC_3339.exec(text);
  if (parts === null) {
    return refused(
      `"${text.slice(0, 40)}" is not a time; write it like 2026-03-14T16:40:00Z or 2026-03-14T16:40:00+01:00`,
    );
  }
  const [
    ,
    year = '',
    month = '',
    day = '',
    hour = '',
    minute = '',
    second = '',
    fraction = '',
    offset,
    offHour = '0',
    offMinute = '0',
  ] = parts;
  if (offset === undefined) {
    return refused(`"${text}" does not say which zone it is in; end it with Z or an offset such as +01:00`);
  }
  if (fraction.length > 4) return refused(`"${text}" is finer than milliseconds; give three decimals at most`);
  const date = Date.UTC(Number(year), Number(month) - 1, Number(day));
  const back = new Date(date);
  if (Number(year) < 1900 || back.getUTCMonth() !== Number(month) - 1 || back.getUTCDate() !== Number(day)) {
    return refused(`"${text}" is not a date that exists; check the year, month and day`);
  }
  if (
    Number(hour) > 23 ||
    Number(minute) > 59 ||
    Number(second) > 59 ||
    Number(offHour) > 23 ||
    Number(offMinute) > 59
  ) {
    return refused(`"${text}" is not a time that exists; check the hours, minutes and offset`);
  }
  const sign = offset.startsWith('-') ? -1 : 1;
  const away = offset === 'Z' || offset === 'z' ? 0 : sign * (Number(offHour) * 60 + Number(offMinute));
  const milliseconds = Number(fraction.slice(1).padEnd(3, '0'));
  const value =
    date + Number(hour) * HOUR + Number(minute) * MINUTE + Number(second) * 1000 + milliseconds - away * MINUTE;
  return accepted(value as Instant);
};

/** The milliseconds of `2026-03-14T16:40:00Z` or `2026-03-14T16:40:00.120Z`; undefined for every other way of writing. */
const plainInstant = (text: string): number | undefined => {
  const short = text.length === 20;
  if (!short && !(text.length === 24 && text[19] === '.')) return undefined;
  if (text[4] !== '-' || text[7] !== '-' || text[10] !== 'T' || text[13] !== ':' || text[16] !== ':') return undefined;
  if (text[text.length - 1] !== 'Z') return undefined;
  const year = twoDigits(text, 0) * 100 + twoDigits(text, 2);
  const month = twoDigits(text, 5);
  const day = twoDigits(text, 8);
  const hour = twoDigits(text, 11);
  const minute = twoDigits(text, 14);
  const second = twoDigits(text, 17);
  const milliseconds = short ? 0 : twoDigits(text, 20) * 10 + (twoDigits(text, 21) % 10);
  // A digit that is none makes NaN, and NaN is in no range. The 29th of February is left to the other way.
  if (!(year >= 1900 && day >= 1 && day <= (MONTHS[month] ?? 0) && hour <= 23 && minute <= 59 && second <= 59)) {
    return undefined;
  }
  if (!(milliseconds >= 0)) return undefined;
  return Date.UTC(year, month - 1, day, hour, minute, second, milliseconds);
};

/** Days of each month, January at 1. */
const MONTHS = [0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

const twoDigits = (text: string, at: number): number => {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : Number.NaN;
};

/** RFC 3339 in UTC, without a fraction where it is zero: `2026-03-14T16:40:00Z`. */
export const instantText = (instant: Instant): string => {
  const iso = new Date(instant).toISOString();
  return iso.endsWith('.000Z') ? `${iso.slice(0, 19)}Z` : iso;
};

/** The instant that many hours later (hours may be fractional; the result is whole milliseconds). */
export const plusHours = (instant: Instant, hours: number): Instant => Math.round(instant + hours * HOUR) as Instant;

/** The instant that many milliseconds later. */
export const plusMilliseconds = (instant: Instant, milliseconds: number): Instant =>
  (instant + milliseconds) as Instant;

/** The earlier of two instants. */
export const earlier = (a: Instant, b: Instant): Instant => (a <= b ? a : b);

/** The later of two instants. */
export const later = (a: Instant, b: Instant): Instant => (a >= b ? a : b);

/** An instant from text that a schema has already passed. */
export const mustBeInstant = (text: string): Instant => {
  const parsed = parseInstant(text);
  if (!parsed.ok) throw new Error(parsed.problem);
  return parsed.value;
};
