/**
 * Dates as a spreadsheet writes them: ISO always, another way only as `--dates` says, and never guessed:
 * 3/4/2026 is March in one country and April in the next.
 */
import { type LocalDay, parseLocalDay } from '../../shared/local-day.ts';
import { accepted, type Result, refused } from '../../shared/refusal.ts';

export interface DateReader {
  /** A date alone. A midnight behind it, as databases write, is taken for none. */
  readonly day: (text: string) => Result<LocalDay>;
  /** A date and a time of day, in minutes after midnight. */
  readonly dayAndTime: (text: string) => Result<{ readonly day: LocalDay; readonly minutes: number }> | undefined;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const LONG_MONTHS = 'january|february|march|april|may|june|july|august|september|october|november|december'.split('|');
const EXAMPLE = '--dates dd/mm/yyyy or --dates mm/dd/yyyy';

const PARTS = {
  yyyy: '(?<year>\\d{4})',
  yy: '(?<year>\\d{2})',
  mmm: '(?<month>[a-z]{3,9})',
  mm: '(?<month>\\d{1,2})',
  m: '(?<month>\\d{1,2})',
  dd: '(?<day>\\d{1,2})',
  d: '(?<day>\\d{1,2})',
} as const;

/** Refuses a `--dates` that does not name a day, a month and a year once each. `yy` means 2000 to 2099. */
export const dateReader = (dates?: string): Result<DateReader> => {
  const pattern = dates === undefined || dates.toLowerCase() === 'iso' ? undefined : patternOf(dates);
  if (pattern !== undefined && !pattern.ok) return pattern;
  const day = (text: string): Result<LocalDay> => readDay(text, dates, pattern?.ok ? pattern.value : undefined);
  return accepted({
    day: (text) => day(text.replace(/[T ]00:00(:00(\.0+)?)?$/, '')),
    dayAndTime: (text) => {
      const parts = /^(.+?)[T ](\d{1,2}):(\d{2})(?::00(?:\.0+)?)?$/.exec(text);
      if (parts === null) return undefined;
      const [hour, minute] = [Number(parts[2]), Number(parts[3])];
      if (hour > 23 || minute > 59) return refused(`"${text}" is not a time of day that exists`);
      const read = day(parts[1] ?? '');
      return read.ok ? accepted({ day: read.value, minutes: hour * 60 + minute }) : read;
    },
  });
};

const patternOf = (dates: string): Result<RegExp> => {
  const lower = dates.trim().toLowerCase();
  const wrong = refused(`--dates ${dates.slice(0, 40)} is not a way of writing dates; give ${EXAMPLE}`);
  const parts = lower.match(/y+|m+|d+|[^ymd]+/g) ?? [];
  const names = parts.filter((part) => /^[ymd]/.test(part));
  const kinds = names.map((name) => name[0]);
  if (kinds.length !== 3 || new Set(kinds).size !== 3 || !names.every((name) => Object.hasOwn(PARTS, name)))
    return wrong;
  if (!parts.every((part) => /^[ymd]/.test(part) || /^[-/. ]{1,2}$/.test(part))) return wrong;
  const source = parts.map((part) => (isPart(part) ? PARTS[part] : part.replace(/[-/.]/g, (mark) => `\\${mark}`)));
  return accepted(new RegExp(`^${source.join('')}$`, 'i'));
};

const isPart = (part: string): part is keyof typeof PARTS => Object.hasOwn(PARTS, part);

const readDay = (text: string, dates: string | undefined, pattern: RegExp | undefined): Result<LocalDay> => {
  const found = pattern?.exec(text)?.groups;
  if (found !== undefined) {
    const { year = '', month = '', day = '' } = found;
    const number = /^\d/.test(month) ? Number(month) : monthOf(month);
    const iso = [year.length === 2 ? `20${year}` : year, String(number).padStart(2, '0'), day.padStart(2, '0')].join(
      '-',
    );
    const read = parseLocalDay(iso);
    return read.ok
      ? read
      : refused(`"${text}" read as ${dates} is not a date that exists; check the day and the month`);
  }
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return parseLocalDay(text);
  if (/^\d{5}(\.\d+)?$/.test(text)) {
    return refused(
      `"${text}" looks like a spreadsheet's own day count; format the column as dates and save the list again`,
    );
  }
  return dates === undefined || pattern === undefined
    ? refused(
        `"${text.slice(0, 40)}" is not a date like 2026-03-14; write it so, or say how the file writes dates, with ${EXAMPLE}`,
      )
    : refused(`"${text.slice(0, 40)}" is written neither as ${dates} nor like 2026-03-14; correct it`);
};

const monthOf = (name: string): number => {
  const lower = name.toLowerCase();
  return Math.max(MONTHS.indexOf(lower), LONG_MONTHS.indexOf(lower)) + 1;
};
