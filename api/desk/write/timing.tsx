/** When it happened: now, at a milking, or at a time that is typed, on the farm's own clock. */
import type { Child } from 'hono/jsx';
import type { Known } from '../../../projections/know.ts';
import type { Milking, Schedule } from '../../../projections/schedule.ts';
import { plannedEnd } from '../../../projections/window.ts';
import { earlier, type Instant, instantText } from '../../../shared/instant.ts';
import { accepted, type Result, refused } from '../../../shared/refusal.ts';
import { say } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import { readWall, wallText } from '../wall-time.ts';
import type { Typed } from './fields.tsx';

/** The milkings that something written down now is likely to be about, the latest first. */
export const lastMilkings = (schedule: Schedule, now: Instant): Milking[] => {
  const found: Milking[] = [];
  let before = now;
  for (let count = 0; count < 4; count += 1) {
    const milking = schedule.startedBy(before);
    if (milking === undefined) break;
    found.push(milking);
    before = (milking.start - 1) as Instant;
  }
  return found;
};

/** A thing known only by its milking is timed at that milking's planned end; never ahead of the clock. */
export const timeAtMilking = (known: Known, schedule: Schedule, milking: Milking, now: Instant): Instant =>
  earlier(plannedEnd(known, schedule, milking), now);

interface Clock {
  readonly known: Known;
  readonly schedule: Schedule;
  readonly now: Instant;
}

/** When it happened, by what stands in the form. */
export const timeOf = (typed: Typed, { known, schedule, now }: Clock): Result<Instant> => {
  const when = typed.one('when') ?? 'now';
  if (when === 'now') return accepted(now);
  if (when === 'milking') {
    const milking = schedule.find(typed.one('milkingAt') ?? '');
    if (milking === undefined) return refused(say('Say at which milking it was'));
    if (milking.start > now)
      return refused(say('That milking has not begun; what is still to come is not written down yet'));
    return accepted(timeAtMilking(known, schedule, milking, now));
  }
  const typedTime = typed.one('timeAt');
  if (typedTime === undefined) return refused(say('Say when it was: the date and the time'));
  return readWall(schedule.inForceAt(now).zone, typedTime);
};

export const WhenFields = ({
  typed,
  clock,
  speaking,
  trouble,
}: {
  typed: Typed;
  clock: Clock;
  speaking: Speaking;
  trouble: Child | undefined;
}) => {
  const { schedule, now } = clock;
  const { zone } = schedule.inForceAt(now);
  const when = typed.one('when') ?? 'now';
  const milkings = lastMilkings(schedule, now);
  return (
    <fieldset>
      <legend>{say('When')}</legend>
      {trouble === undefined ? null : (
        <p class="problem" role="alert" id="when-trouble">
          {trouble}
        </p>
      )}
      <div>
        <label class="choice">
          <input type="radio" name="when" value="now" checked={when === 'now'} />
          {say('Now ({time})', { time: speaking.format.clock(instantText(now)) })}
        </label>
      </div>
      {milkings.length === 0 ? null : (
        <div>
          <label class="choice">
            <input type="radio" name="when" value="milking" checked={when === 'milking'} />
            {say('At a milking')}
          </label>
          <select name="milkingAt" aria-label={say('Which milking')}>
            {milkings.map((milking) => (
              <option value={milking.id} selected={milking.id === typed.one('milkingAt')}>
                {speaking.format.milking(milking.id)}
              </option>
            ))}
          </select>
        </div>
      )}
      <div>
        <label class="choice">
          <input type="radio" name="when" value="time" checked={when === 'time'} />
          {say('At another time')}
        </label>
        <input
          type="datetime-local"
          name="timeAt"
          aria-label={say("Date and time, on the farm's clock")}
          value={typed.one('timeAt') ?? wallText(zone, now)}
        />
      </div>
    </fieldset>
  );
};
