/**
 * When what stands on the paper happened. A thing known only by its milking is timed at that milking's planned end, never
 * later than it was finished, nor than now; a line may have a time of its own, on the farm's clock.
 */
import type { Known } from '../../../projections/know.ts';
import { firstOf, type Milking, minutesOf, type Schedule } from '../../../projections/schedule.ts';
import { plannedEnd } from '../../../projections/window.ts';
import { DAY, type Instant } from '../../../shared/instant.ts';
import { addDays, type LocalDay, parseLocalDay } from '../../../shared/local-day.ts';
import { accepted, type Result, refused } from '../../../shared/refusal.ts';
import { say } from '../say.tsx';
import { wallInstants } from '../wall-time.ts';

export interface Span {
  readonly schedule: Schedule;
  readonly milking: Milking;
  /** When the next one starts. */
  readonly next: Instant | undefined;
  readonly now: Instant;
}

export const spanOf = (schedule: Schedule, milking: Milking, now: Instant): Span => ({
  schedule,
  milking,
  next: firstOf(schedule.after(milking.start))?.start,
  now,
});

export const hasBegun = ({ milking, now }: Span): boolean => milking.start <= now;

/** `finished`: as written on the paper or in the book. */
export const atThisMilking = (known: Known, span: Span, finished: Instant | undefined): Instant => {
  const { schedule, milking, now } = span;
  const ends = [plannedEnd(known, schedule, milking), finished, now].filter((each) => each !== undefined);
  return Math.max(milking.start, Math.min(...ends)) as Instant;
};

/** A time typed as `2026-03-31T17:25`, by the farm's clock: within the day before the milking, and not ahead of now. */
export const typedTime = (text: string, span: Span): Result<Instant> => {
  const parts = /^(\d{4}-\d{2}-\d{2})[T ]([01]\d|2[0-3]):([0-5]\d)(?::[0-5]\d)?$/.exec(text);
  const day = parseLocalDay(parts?.[1] ?? '');
  if (parts === null || !day.ok)
    return refused(
      say('"{typed}" is not a date and time; write it like {like}', {
        typed: text.slice(0, 30),
        like: `${span.milking.day}T17:25`,
      }),
    );
  const at = wallTime(day.value, Number(parts[2]) * 60 + Number(parts[3]), span);
  if (!at.ok) return at;
  if (at.value > span.now) return refused(say('That time is still to come; check the date and the time'));
  if (at.value < span.milking.start - DAY)
    return refused(
      say('That is more than a day before this milking; check the date, or write it down apart from the sheet'),
    );
  return at;
};

/** When a milking was finished, typed as `18:40`: the first such time after it started. */
export const typedFinish = (text: string, span: Span): Result<Instant> => {
  const { milking, next, now } = span;
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(text))
    return refused(say('"{typed}" is not a time; write it like 18:40', { typed: text.slice(0, 20) }));
  const sameDay = wallTime(milking.day, minutesOf(text), span);
  const at =
    sameDay.ok && sameDay.value < milking.start ? wallTime(addDays(milking.day, 1), minutesOf(text), span) : sameDay;
  if (!at.ok) return at;
  if (next !== undefined && at.value > next)
    return sameDay.ok && sameDay.value < milking.start
      ? refused(
          say('{time} is before this milking began, {began}; check when it was finished', {
            time: text,
            began: milkingClock(span),
          }),
        )
      : refused(say('At {time} the next milking had begun already; check when this one was finished', { time: text }));
  if (at.value > now)
    return refused(say('{time} is still to come; write down when the milking is finished once it is', { time: text }));
  return at;
};

const milkingClock = ({ schedule, milking }: Span): string =>
  schedule.inForceOn(milking.day).data.milkings.find(({ name }) => name === milking.name)?.start ?? '';

/** A wall time that the clocks skip is refused; of two that they repeat the later one that has been is taken: it holds longer. */
const wallTime = (day: LocalDay, minutes: number, { schedule, now }: Span): Result<Instant> => {
  const found = wallInstants(schedule.inForceOn(day).zone, day, minutes);
  const at = found.findLast((each) => each <= now) ?? found[0];
  return at === undefined ? refused(say('The clocks skip that time on that day; check the time')) : accepted(at);
};
