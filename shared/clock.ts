/** The only place that says "now". A rehearsal has a fixed clock; everything else is told the time as an argument. */
import { type Instant, instantText } from './instant.ts';

export interface Clock {
  readonly now: () => Instant;
  /** True for a fixed clock, which only rehearsal books accept. */
  readonly fixed: boolean;
}

export const systemClock: Clock = { now: () => Date.now() as Instant, fixed: false };

export const fixedClock = (instant: Instant): Clock => ({ now: () => instant, fixed: true });

/** For messages: the clock's time as RFC 3339 in UTC. */
export const clockText = (clock: Clock): string => instantText(clock.now());

/** Milliseconds that only go forward, whatever is done to the computer's clock: for pacing and waiting, never for entries. */
export const steadyMilliseconds = (): number => performance.now();
