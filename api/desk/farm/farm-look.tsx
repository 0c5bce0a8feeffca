/** A change of the set-up before it is saved: what it says otherwise, which cows' holds it moves, who stands in a group that it takes away. */
import type { FarmSetUp } from '../../../events/kinds/farm-set-up.ts';
import { firstOf, type Milking, type SetUp } from '../../../projections/schedule.ts';
import type { Instant } from '../../../shared/instant.ts';
import { later } from '../../../shared/instant.ts';
import { addDays, parseLocalDay } from '../../../shared/local-day.ts';
import { type Knowledge, tonightFrom } from '../../tonight.ts';
import type { Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { Carried, type Typed } from '../controls.tsx';
import { page } from '../layout.tsx';
import { say } from '../say.tsx';
import { effectOf } from './farm-effect.ts';
import { EffectShown } from './farm-effect-shown.tsx';
import { changedLines, setUpLines } from './farm-words.ts';

export const Changes = ({ changes }: { changes: ReturnType<typeof changedLines> }) =>
  changes.length === 0 ? (
    <p>{say('Nothing is said otherwise than before.')}</p>
  ) : (
    <section class="scroll" tabindex={0} aria-label={say('What is said otherwise, the table')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('What')}</th>
            <th scope="col">{say('Before')}</th>
            <th scope="col">{say('After')}</th>
          </tr>
        </thead>
        <tbody>
          {changes.map(({ what, before, after }) => (
            <tr>
              <th scope="row">{what}</th>
              <td>{before ?? say('not there')}</td>
              <td>{after ?? say('taken away')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

/** The first milking that a knowledge has after both now and the start of the date. */
const firstFrom = ({ known }: Knowledge, from: Instant): Milking | undefined =>
  known.farm.schedule === undefined ? undefined : firstOf(known.farm.schedule.after((from - 1) as Instant));

export const lookPage = (
  desk: Desk,
  hand: AtHand,
  form: Typed,
  base: SetUp,
  data: FarmSetUp,
  afterwards: Knowledge,
): Promise<Response> => {
  const { format, schedule, frame } = hand;
  const now = desk.now();
  const today = schedule.dayOf(now);
  const day = parseLocalDay(data.from ?? '');
  const from = day.ok ? day.value : addDays(today, 1);
  const start = later(base.zone.startOfDay(from), now);
  const [was, is] = [firstFrom(desk.knowing.now(), start), firstFrom(afterwards, start)];
  const effect =
    was === undefined || is === undefined
      ? undefined
      : effectOf(
          tonightFrom(desk.knowing.now(), { milking: was.id }, now),
          tonightFrom(afterwards, { milking: is.id }, now),
        );
  const gone = standingInGone(hand, data);
  return page({
    ...frame,
    title: say('Read this, then save'),
    children: (
      <>
        <p class="lead">
          {say('Nothing is saved yet. The new set-up would count from {day}.', { day: format.longDay(from) })}
        </p>
        {from <= today ? (
          <p class="problem">
            {from < today
              ? say(
                  '{day} has passed: the milkings since then are worked out anew, and so are the holds that count milkings. Sheets that were issued stay as they were printed.',
                  { day: format.longDay(from) },
                )
              : say(
                  'It counts from today on: a milking of today that was moved or taken out changes with it. Sheets that were issued stay as they were printed; issue them again.',
                )}
          </p>
        ) : null}
        {data.freshHold?.hours === undefined && data.freshHold?.milkings === undefined ? (
          <p class="problem">{say('No fresh hold is set: every cow that calves is held without end until one is.')}</p>
        ) : null}
        {gone.map(({ group, cows }) => (
          <p class="problem">
            {say(
              'Group {group} is taken away, and still has {n, plural, one {# cow} other {# cows}}. They count as milked, in a group that nobody knows, until each is moved.',
              { group, n: cows },
            )}
          </p>
        ))}
        <section aria-label={say('What is said otherwise')}>
          <h2>{say('What is said otherwise')}</h2>
          <Changes changes={changedLines(setUpLines(base.data), setUpLines(data))} />
        </section>
        {effect === undefined || is === undefined ? null : (
          <EffectShown effect={effect} hand={hand} at={format.milking(is.id)} />
        )}
        <form method="post" action="/farm/change">
          <input type="hidden" name="once" value={form.one('once')} />
          <Carried typed={form} />
          <p class="actions">
            <button type="submit" name="step" value="save">
              {say('Save the set-up')}
            </button>
            <button class="quiet" type="submit" name="step" value="edit">
              {say('Change something')}
            </button>
          </p>
        </form>
      </>
    ),
  });
};

const standingInGone = ({ answer }: AtHand, data: FarmSetUp): { group: string; cows: number }[] => {
  const names = new Set(data.groups.flatMap(({ name, was = [] }) => [name, ...was]));
  return answer.views.sheets.counts.groups.flatMap(({ group, head }) =>
    names.has(group) || head === 0 ? [] : [{ group, cows: head }],
  );
};
