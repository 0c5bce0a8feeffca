/** Where things stand on a time line: its stretch of time, months along it, and lanes so that nothing lies on another. */
import { DAY, type Instant } from '../../../shared/instant.ts';
import { addDays, type LocalDay } from '../../../shared/local-day.ts';
import type { Zone } from '../../../shared/zone.ts';
import type { HoldSpan, Mark } from './cow-holds.ts';

export interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

const BACK = 120 * DAY;
const LEAST_AHEAD = 21 * DAY;
const MOST_AHEAD = 120 * DAY;
const MARGIN = 4 * DAY;

/** The last four months and what lies ahead, four months at most; `all`: from her first entry to the last thing expected. */
export const stretchOf = (spans: readonly HoldSpan[], marks: readonly Mark[], now: Instant, all: boolean): Stretch => {
  const times = [
    ...marks.map(({ at }) => at),
    ...spans.flatMap(({ began, end }) => [began, end].filter((each): each is Instant => each !== null)),
  ];
  const first = Math.min(now, ...times) - MARGIN;
  const last = Math.max(now, ...times) + MARGIN;
  const from = all ? first : Math.max(first, now - BACK);
  const to = Math.max(now + LEAST_AHEAD, all ? last : Math.min(last, now + MOST_AHEAD));
  return { from: from as Instant, to: to as Instant };
};

/** Per cent along the stretch, its ends at most. */
export const along = ({ from, to }: Stretch, at: Instant): number =>
  Math.round(Math.min(100, Math.max(0, ((at - from) / (to - from)) * 100)) * 100) / 100;

export interface Tick {
  readonly x: number;
  readonly label: string;
  /** Left out where there is little room. */
  readonly minor: boolean;
}

/** Beginnings of months, of every third one, or of years, a dozen at most. */
export const ticksOf = (stretch: Stretch, zone: Zone, locale: string): readonly Tick[] => {
  const months = (stretch.to - stretch.from) / (30 * DAY);
  const step = months <= 12 ? 1 : months <= 36 ? 3 : 12;
  const names = new Intl.DateTimeFormat(locale, { month: 'short', timeZone: 'UTC' });
  const ticks: Tick[] = [];
  let day = `${zone.dayOf(stretch.from).slice(0, 7)}-01` as LocalDay;
  for (; ; day = nextMonth(day)) {
    const at = zone.startOfDay(day);
    if (at > stretch.to) return ticks;
    const month = Number(day.slice(5, 7)) - 1;
    if (at < stretch.from || month % step !== 0) continue;
    const year = day.slice(0, 4);
    const name = names.format(new Date(`${day}T00:00:00Z`));
    const label = step === 12 ? year : month === 0 ? `${name} ${year}` : name;
    ticks.push({ x: along(stretch, at), label, minor: ticks.length % 2 === 1 });
  }
};

const nextMonth = (day: LocalDay): LocalDay => `${addDays(day, 32).slice(0, 7)}-01` as LocalDay;

/** The lane of each item, from 0, in the order given: none touches the one before it in its lane. */
export const lanesOf = (items: readonly { readonly from: number; readonly to: number }[]): readonly number[] => {
  const ends: number[] = [];
  return items.map(({ from, to }) => {
    const free = ends.findIndex((end) => end <= from);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = to;
    return lane;
  });
};
