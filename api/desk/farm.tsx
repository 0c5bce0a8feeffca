/**
 * The farm's set-up: what is in force in plain words, and a form for all of it. A change is looked at before it is saved:
 * what it says otherwise, which cows' holds it moves, and who stands in a group that it takes away.
 */
import type { FarmSetUp } from '../../events/kinds/farm-set-up.ts';
import { firstOf, type Milking, type SetUp } from '../../projections/schedule.ts';
import type { Instant } from '../../shared/instant.ts';
import { later } from '../../shared/instant.ts';
import { addDays, laterDay, parseLocalDay } from '../../shared/local-day.ts';
import { plural } from '../command-line/settings.ts';
import { kindsFor } from '../devices/roles.ts';
import { type Knowledge, tonightFrom } from '../tonight.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from './ask.ts';
import { type AtHand, atHand } from './at-hand.ts';
import { effectOf } from './farm-effect.ts';
import { EffectShown } from './farm-effect-shown.tsx';
import { Carried, type Given, Input, NO_PROBLEMS, type Problems, type Typed, Wrong } from './farm-field.tsx';
import { FreshPart, GroupsPart, MilkingsPart, NameAndZone, OtherParts, ParlourPart } from './farm-form.tsx';
import { SAVED_ALREADY, savedBefore } from './farm-once.ts';
import { readSetUp } from './farm-read.ts';
import { typedSetUp } from './farm-typed.ts';
import { changedLines, setUpLines } from './farm-words.ts';
import { goTo, page } from './layout.tsx';
import { asIf, checkDrafts, type Draft, save } from './saving.ts';

export const farmPages: readonly DeskPage[] = [
  { method: 'get', path: '/farm', right: 'herd', run: (desk, ask) => inForcePage(desk, ask) },
  {
    method: 'get',
    path: '/farm/change',
    right: 'herd',
    run: (desk, ask) => {
      const hand = atHand(desk, ask.visitor, '/farm');
      if (hand === undefined) return goTo('/begin');
      const base = latestOf(hand);
      const tomorrow = addDays(hand.schedule.dayOf(desk.now()), 1);
      const given = {
        typed: typedSetUp(base.data, laterDay(tomorrow, base.from)),
        problems: NO_PROBLEMS,
      };
      return formPage(hand, ask.visitor.once(), base.id, given);
    },
  },
  { method: 'post', path: '/farm/change', right: 'push', run: (desk, ask) => changed(desk, ask) },
];

/** The last word on the set-up, in force already or not. A change begins from it, so that none before it is lost. */
const latestOf = ({ schedule }: AtHand): SetUp => schedule.setUps.at(-1) as SetUp;

const inForcePage = (desk: Desk, { visitor, url }: Ask): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/farm');
  if (hand === undefined) return goTo('/begin');
  const { schedule, format, frame } = hand;
  const now = schedule.inForceAt(desk.now());
  const latest = latestOf(hand);
  const lines = setUpLines(now.data);
  const may = kindsFor(visitor.caller.role) === null;
  const noCows = hand.answer.known.herd.animals.length === 0;
  return page({
    ...frame,
    title: 'The farm',
    children: (
      <>
        {url.searchParams.get('saved') === null ? null : (
          <p class="done" role="status">
            The set-up is written down.
          </p>
        )}
        {noCows && may ? (
          <p>
            No cow is in the book yet: <a href="/begin">go on with setting up</a>.
          </p>
        ) : null}
        {latest.id === now.id ? null : (
          <section class="notices doubt" aria-label="Not in force yet">
            <h2>From {format.longDay(latest.from)}</h2>
            <Changes changes={changedLines(lines, setUpLines(latest.data))} />
          </section>
        )}
        <section class="card" aria-label="In force">
          <h2>In force since {format.longDay(now.from)}</h2>
          <dl class="facts">
            {lines.map(({ what, says }) => (
              <div>
                <dt>{what}</dt>
                <dd>{says}</dd>
              </div>
            ))}
          </dl>
        </section>
        {may ? (
          <p class="actions">
            <a class="button" href="/farm/change">
              Change the set-up
            </a>
          </p>
        ) : (
          <p>The manager changes it.</p>
        )}
      </>
    ),
  });
};

const Changes = ({ changes }: { changes: ReturnType<typeof changedLines> }) =>
  changes.length === 0 ? (
    <p>Nothing is said otherwise than before.</p>
  ) : (
    <section class="scroll" tabindex={0} aria-label="What is said otherwise, the table">
      <table>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Before</th>
            <th scope="col">After</th>
          </tr>
        </thead>
        <tbody>
          {changes.map(({ what, before, after }) => (
            <tr>
              <th scope="row">{what}</th>
              <td>{before ?? 'not there'}</td>
              <td>{after ?? 'taken away'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

const formPage = (hand: AtHand, once: string, base: string, given: Given, spare = 2, status = 200): Promise<Response> =>
  page(
    {
      ...hand.frame,
      title: 'Change the set-up',
      children: (
        <>
          <p class="lead">
            Every change is written down and stays readable. You see what it does to the cows before it is saved.
          </p>
          <Wrong problems={given.problems} />
          <form method="post" action="/farm/change">
            <input type="hidden" name="once" value={once} />
            <input type="hidden" name="base" value={base} />
            {/* The first button of a form is the one that the Enter key presses. */}
            <p class="actions">
              <button type="submit" name="step" value="look">
                See what it changes
              </button>
            </p>
            <div class="narrow">
              <Input
                label="It counts from"
                name="from"
                given={given}
                type="date"
                required
                hint="From the first milking of that date; the days before keep the rules they had"
              />
            </div>
            <NameAndZone given={given} />
            <MilkingsPart given={given} />
            <ParlourPart given={given} all />
            <GroupsPart given={given} spare={spare} all />
            <FreshPart given={given} all />
            <OtherParts given={given} products={dryCowProducts(hand)} />
            <p class="actions">
              <button type="submit" name="step" value="look">
                See what it changes
              </button>
              <a href="/farm">Leave it as it is</a>
            </p>
          </form>
        </>
      ),
    },
    status,
  );

const dryCowProducts = ({ answer }: AtHand): string[] =>
  [...answer.known.farm.listings.values()].flatMap((listings) => {
    const last = listings.at(-1)?.data;
    return last?.dryCow === undefined || last.retired === true ? [] : [last.name];
  });

const changed = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const { form, visitor } = ask;
  const saving = savingOf(form);
  const hand = atHand(desk, visitor, '/farm');
  if (hand === undefined) return goTo('/begin');
  const once = form.one('once') ?? '';
  const base = hand.schedule.setUps.find(({ id }) => id === form.one('base')) ?? latestOf(hand);
  const again = (problems: Problems, as = once, baseId = base.id) =>
    formPage(hand, as, baseId, { typed: form, problems }, 2, 400);
  const step = form.one('step');
  if (step === 'edit') return formPage(hand, once, base.id, { typed: form, problems: NO_PROBLEMS });
  if (step === 'rows') return formPage(hand, once, base.id, { typed: form, problems: NO_PROBLEMS }, 6);

  const read = readSetUp(form, base.data);
  if (!read.ok) return again(read.problems);
  const latest = latestOf(hand);
  // Later than the one before it, also where the clock stands still, as in a rehearsal.
  const at = later(desk.now(), (latest.at + 1) as Instant);
  const drafts: Draft[] = [{ type: 'farm-set-up', at, data: read.data }];
  const before = savedBefore(desk, saving, drafts);
  if (before === 'same') return goTo('/farm?saved=1');
  if (before === 'other') return again(new Map([['', SAVED_ALREADY]]), visitor.once(), latest.id);
  if (latest.id !== base.id) {
    const says = changedLines(setUpLines(base.data), setUpLines(latest.data)).map(({ what }) => what);
    const sentence = `While you filled this in, the set-up was changed by somebody else (${says.join(', ') || 'from another date'}). What you typed is still here and would undo that where it differs; look at it, then save again`;
    return again(new Map([['', sentence]]), once, latest.id);
  }
  const checked = checkDrafts(desk, visitor, saving, drafts);
  if (!checked.ok) return again(new Map(checked.troubles.map(({ problem }) => ['', problem])));
  if (step === 'save') {
    save(desk, checked.passed);
    return goTo('/farm?saved=1');
  }
  return lookPage(desk, hand, form, base, read.data, asIf(desk, checked.passed));
};

/** The first milking that a knowledge has after both now and the start of the date. */
const firstFrom = ({ known }: Knowledge, from: Instant): Milking | undefined =>
  known.farm.schedule === undefined ? undefined : firstOf(known.farm.schedule.after((from - 1) as Instant));

const lookPage = (
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
    title: 'Read this, then save',
    children: (
      <>
        <p class="lead">Nothing is saved yet. The new set-up would count from {format.longDay(from)}.</p>
        {from <= today ? (
          <p class="problem">
            {from < today
              ? `${format.longDay(from)} has passed: the milkings since then are worked out anew, and so are the holds that count milkings. Sheets that were issued stay as they were printed.`
              : 'It counts from today on: a milking of today that was moved or taken out changes with it. Sheets that were issued stay as they were printed; issue them again.'}
          </p>
        ) : null}
        {data.freshHold?.hours === undefined && data.freshHold?.milkings === undefined ? (
          <p class="problem">No fresh hold is set: every cow that calves is held without end until one is.</p>
        ) : null}
        {gone.map(({ group, cows }) => (
          <p class="problem">
            Group {group} is taken away or renamed, and still has {plural(cows, 'cow')}. They count as milked, in a
            group that nobody knows, until each is moved.
          </p>
        ))}
        <section aria-label="What is said otherwise">
          <h2>What is said otherwise</h2>
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
              Save the set-up
            </button>
            <button class="quiet" type="submit" name="step" value="edit">
              Change something
            </button>
          </p>
        </form>
      </>
    ),
  });
};

const standingInGone = ({ answer }: AtHand, data: FarmSetUp): { group: string; cows: number }[] => {
  const names = new Set(data.groups.map(({ name }) => name));
  return answer.views.sheets.counts.groups.flatMap(({ group, head }) =>
    names.has(group) || head === 0 ? [] : [{ group, cows: head }],
  );
};
