/** A date on the farm's wall calendar, `YYYY-MM-DD`, with no zone and no time. Arithmetic is in whole days. */
import { kept } from './kept.ts';
import { accepted, type Result, refused } from './refusal.ts';

declare const localDayBrand: unique symbol;
export type LocalDay = string & { readonly [localDayBrand]: true };

export const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** Reads `YYYY-MM-DD`; refuses dates that do not exist (30 February) and every other way of writing one. */
export const parseLocalDay = (text: string): Result<LocalDay> => {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (parts === null) return refused(`"${text.slice(0, 40)}" is not a date; write it like 2026-03-14`);
  const back = new Date(Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])));
  if (
    Number(parts[1]) < 1900 ||
    back.getUTCMonth() !== Number(parts[2]) - 1 ||
    back.getUTCDate() !== Number(parts[3])
  ) {
    return refused(`"${text}" is not a date that exists; check the year, month and day`);
  }
  return accepted(text as LocalDay);
};

/** Dates that are kept once worked out. */
const A_LIFETIME = 30_000;

/** Days since 1970-01-01. */
export const dayNumber = kept(A_LIFETIME, (day: LocalDay): number =>
  Math.round(Date.parse(`${day}T00:00:00Z`) / 86_400_000),
);

export const dayFromNumber = kept(
  A_LIFETIME,
  (days: number): LocalDay => new Date(days * 86_400_000).toISOString().slice(0, 10) as LocalDay,
);

export const addDays = (day: LocalDay, days: number): LocalDay => dayFromNumber(dayNumber(day) + days);

/** Whole days from the first to the second; negative when the second is earlier. */
export const daysBetween = (from: LocalDay, to: LocalDay): number => dayNumber(to) - dayNumber(from);

/** 1970-01-01 was a Thursday. */
export const weekdayOf = (day: LocalDay): Weekday => {
  const index = (((dayNumber(day) + 3) % 7) + 7) % 7;
  return WEEKDAYS[index] as Weekday;
};

/** The later of two dates. */
export const laterDay = (a: LocalDay, b: LocalDay): LocalDay => (a >= b ? a : b);
