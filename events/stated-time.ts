/**
 * Since when something refused may bear on a cow's milk (R-27, R-31): from the time that it states, where that is before it
 * came. A wall time without a zone is taken as early as it can have been anywhere.
 */
import { DAY, HOUR, type Instant, later, parseInstant } from '../shared/instant.ts';

/** Milk from further back has left the farm (common practice, no source), and the time in such a line may be wrong itself. */
const FURTHEST_BACK = 3 * DAY;
/** The clocks of the easternmost places. */
const FURTHEST_EAST = 14 * HOUR;

/** `time`: as stated, in whatever way. Undefined where it is none, or none before `recordedAt`. */
export const bearsSince = (time: unknown, recordedAt: Instant): Instant | undefined => {
  const stated = typeof time === 'string' ? instantIn(time.trim()) : undefined;
  if (stated === undefined || stated >= recordedAt) return undefined;
  return later(stated, (recordedAt - FURTHEST_BACK) as Instant);
};

/** The same of a line, exactly as it was said. */
export const lineBearsSince = (line: string, recordedAt: Instant): Instant | undefined => {
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === 'object' && value !== null && 'time' in value
      ? bearsSince(value.time, recordedAt)
      : undefined;
  } catch {
    return undefined;
  }
};

const instantIn = (time: string): Instant | undefined => {
  const whole = parseInstant(time);
  if (whole.ok) return whole.value;
  const naive = parseInstant(`${time.includes('T') ? time : `${time.slice(0, 10)}T00:00:00`}Z`);
  return naive.ok ? ((naive.value - FURTHEST_EAST) as Instant) : undefined;
};
