/**
 * Times, days, numbers and plurals as a language writes them, on the wall clock of one farm.
 * The names of days and months and the plural rules are `Intl`'s; the order "Sat 14 Mar 16:40" is the paper's.
 */
import { HOUR, type Instant, MINUTE, parseInstant } from '../../shared/instant.ts';
import { dayNumber, type LocalDay, parseLocalDay, WEEKDAYS } from '../../shared/local-day.ts';
import { mustBe } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';

/** A form with `#` for the number: in many languages `one` is 21 too, so no form may leave the number out. */
type Form = `${string}#${string}`;
/** Plural forms; `other` serves for those that a language does not have. */
export type Forms = Partial<Record<Intl.LDMLPluralRule, Form>> & { readonly other: Form };

export interface Frame {
  readonly zone: Zone;
  /** The day of the milking: its year is left out of dates, every other year is written. Absent: always written. */
  readonly near?: LocalDay | undefined;
  /** For paper: a date and its time stay on one line, held by spaces that do not break. */
  readonly unbroken?: boolean | undefined;
}

export interface Format {
  /** `Sat 14 Mar 16:40`; where the clocks repeat that hour, with the offset that tells which of the two. */
  readonly time: (instant: string) => string;
  /** `16:40`. */
  readonly clock: (instant: string) => string;
  /** `Sat 14 Mar`. */
  readonly day: (day: string) => string;
  /** `Saturday 14 March 2026`. */
  readonly longDay: (day: string) => string;
  /** `Tue 17 Mar afternoon`. */
  readonly milking: (id: string) => string;
  readonly milkingName: (name: string) => string;
  /** `thursday` in the reader's language. */
  readonly weekday: (name: string) => string;
  /** `Sat 14 Mar 16:40`, or `Sat 14 Mar` where only the date is known. */
  readonly calving: (when: { readonly calved: string; readonly calvedOn?: string }) => string;
  /**
   * `Sat 14 Mar 16:40 + 60 h = Tue 17 Mar 04:40`, and says so when the clocks change in between. `day`: in place of the
   * time that it counts from, where that is the end of a day of which no more is known.
   */
  readonly sum: (from: string, hours: number, ends: string, day?: string) => string;
  /** `60 h`. */
  readonly hours: (hours: number) => string;
  readonly number: (value: number) => string;
  readonly count: (value: number, forms: Forms) => string;
  readonly list: (items: readonly string[]) => string;
  /** An entry's kind in words; anything else as written. */
  readonly about: (text: string) => string;
}

interface Language {
  readonly locale: string;
  readonly clocksChange: string;
  readonly milkingNames: Readonly<Record<string, string>>;
  readonly kinds: Readonly<Record<string, string>>;
}

const kept = <V>(make: (key: string) => V): ((key: string) => V) => {
  const have = new Map<string, V>();
  return (key) => {
    const found = have.get(key);
    if (found !== undefined) return found;
    const made = make(key);
    have.set(key, made);
    return made;
  };
};

const asUtcDay = (day: LocalDay): Date => new Date(dayNumber(day) * 24 * HOUR);
const WEEKDAY_NAMES: readonly string[] = WEEKDAYS;
const two = (value: number): string => String(value).padStart(2, '0');

const formatters = kept((locale: string) => ({
  shortDay: new Intl.DateTimeFormat(locale, { weekday: 'short', timeZone: 'UTC' }),
  longWeekday: new Intl.DateTimeFormat(locale, { weekday: 'long', timeZone: 'UTC' }),
  dayMonth: new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', timeZone: 'UTC' }),
  dayMonthYear: new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' }),
  long: new Intl.DateTimeFormat(locale, { dateStyle: 'full', timeZone: 'UTC' }),
  plural: new Intl.PluralRules(locale),
  number: new Intl.NumberFormat(locale, { maximumFractionDigits: 2 }),
  list: new Intl.ListFormat(locale, { type: 'conjunction' }),
}));

export const formatFor = (language: Language, frame: Frame): Format => {
  const intl = formatters(language.locale);
  const { zone } = frame;
  const year = frame.near?.slice(0, 4);
  const held = (text: string): string => (frame.unbroken === true ? text.replaceAll(' ', '\u00a0') : text);

  const dayText = kept((day: string) => {
    const parsed = mustBe(parseLocalDay(day));
    const date = asUtcDay(parsed);
    const shape = parsed.slice(0, 4) === year ? intl.dayMonth : intl.dayMonthYear;
    return held(`${intl.shortDay.format(date)} ${shape.format(date)}`);
  });

  const wall = (instant: Instant): string => {
    const minutes = Math.floor(zone.wallMinutes(instant));
    return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  };

  const clock = (text: string): string => {
    const instant = mustBe(parseInstant(text));
    const shown = wall(instant);
    return isRepeated(zone, instant) ? `${shown} (${offsetText(zone, instant)})` : shown;
  };

  const time = kept((text: string) => held(`${dayText(zone.dayOf(mustBe(parseInstant(text))))} ${clock(text)}`));
  const milkingName = (name: string): string => language.milkingNames[name.toLowerCase()] ?? name;
  const number = (value: number): string => intl.number.format(value);
  const hours = (value: number): string => `${number(value)} h`;

  return {
    time,
    clock,
    day: dayText,
    longDay: (day) => intl.long.format(asUtcDay(mustBe(parseLocalDay(day)))).replace(',', ''),
    milking: (id) => `${dayText(id.slice(0, 10))} ${milkingName(id.slice(11))}`,
    milkingName,
    weekday: (name) => {
      const index = WEEKDAY_NAMES.indexOf(name);
      // 5 January 1970 was a Monday.
      return index < 0 ? name : intl.longWeekday.format(new Date((4 + index) * 24 * HOUR));
    },
    calving: ({ calved, calvedOn }) => (calvedOn === undefined ? time(calved) : dayText(calvedOn)),
    sum: (from, span, ends, day) => {
      const moved = offsetAt(zone, mustBe(parseInstant(from))) !== offsetAt(zone, mustBe(parseInstant(ends)));
      return `${day === undefined ? time(from) : dayText(day)} + ${hours(span)} = ${time(ends)}${moved ? ` (${language.clocksChange})` : ''}`;
    },
    hours,
    number,
    count: (value, forms) => (forms[intl.plural.select(value)] ?? forms.other).replace('#', number(value)),
    list: (items) => intl.list.format(items),
    about: (text) => language.kinds[text] ?? text,
  };
};

/** Minutes east of UTC, from the zone's own wall clock. */
const offsetAt = (zone: Zone, instant: Instant): number =>
  dayNumber(zone.dayOf(instant)) * 1440 + Math.floor(zone.wallMinutes(instant)) - Math.floor(instant / MINUTE);

const isRepeated = (zone: Zone, instant: Instant): boolean =>
  [-1, 1].some((side) => {
    const other = (instant + side * HOUR) as Instant;
    return zone.dayOf(other) === zone.dayOf(instant) && zone.wallMinutes(other) === zone.wallMinutes(instant);
  });

const offsetText = (zone: Zone, instant: Instant): string => {
  const minutes = offsetAt(zone, instant);
  const size = Math.abs(minutes);
  return `UTC${minutes < 0 ? '-' : '+'}${Math.floor(size / 60)}${size % 60 === 0 ? '' : `:${two(size % 60)}`}`;
};
