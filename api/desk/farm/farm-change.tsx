/** Changing the set-up: the form for all of it, drawn from the last one there is, and what is done with it when it comes back. */

import type { SetUp } from '../../../projections/schedule.ts';
import type { Instant } from '../../../shared/instant.ts';
import { later } from '../../../shared/instant.ts';
import { addDays, laterDay } from '../../../shared/local-day.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { type Given, Input, NO_PROBLEMS, type Problems, Wrong } from '../controls.tsx';
import { goTo, page } from '../layout.tsx';
import { asIf, checkDrafts, type Draft, SAVED_ALREADY, save, savedBefore } from '../saving.ts';
import { inEnglish, say } from '../say.tsx';
import { FreshPart, GroupsPart, MilkingsPart, NameAndZone, OtherParts, ParlourPart } from './farm-form.tsx';
import { lookPage } from './farm-look.tsx';
import { readSetUp } from './farm-read.ts';
import { typedSetUp } from './farm-typed.ts';
import { changedLines, setUpLines } from './farm-words.ts';

export const farmChangePages: readonly DeskPage[] = [
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
export const latestOf = ({ schedule }: AtHand): SetUp => schedule.setUps.at(-1) as SetUp;

const formPage = (hand: AtHand, once: string, base: string, given: Given, spare = 2, status = 200): Promise<Response> =>
  page(
    {
      ...hand.frame,
      title: say('Change the set-up'),
      children: (
        <>
          <p class="lead">
            {say(
              'Every change is written down and stays readable. You see what it does to the cows before it is saved.',
            )}
          </p>
          <Wrong problems={given.problems} />
          <form method="post" action="/farm/change">
            <input type="hidden" name="once" value={once} />
            <input type="hidden" name="base" value={base} />
            {/* The first button of a form is the one that the Enter key presses. */}
            <p class="actions">
              <button type="submit" name="step" value="look">
                {say('See what it changes')}
              </button>
            </p>
            <div class="narrow">
              <Input
                label={say('It counts from')}
                name="from"
                given={given}
                type="date"
                required
                hint={say('From the first milking of that date; the days before keep the rules they had')}
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
                {say('See what it changes')}
              </button>
              <a href="/farm">{say('Leave it as it is')}</a>
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
  if (!read.ok) return again(read.shown);
  const latest = latestOf(hand);
  // Later than the one before it, also where the clock stands still, as in a rehearsal.
  const at = later(desk.now(), (latest.at + 1) as Instant);
  const drafts: Draft[] = [{ type: 'farm-set-up', at, data: read.data }];
  const before = savedBefore(desk, saving, drafts);
  if (before === 'same') return goTo('/farm?saved=1');
  if (before === 'other') return again(new Map([['', say(SAVED_ALREADY)]]), visitor.once(), latest.id);
  if (latest.id !== base.id) {
    const says = changedLines(setUpLines(base.data), setUpLines(latest.data)).map(({ what }) => what);
    const sentence = say(
      'While you filled this in, the set-up was changed by somebody else ({what}). What you typed is still here and would undo that where it differs; look at it, then save again',
      { what: says.join(', ') || say('from another date') },
    );
    return again(new Map([['', sentence]]), once, latest.id);
  }
  const checked = checkDrafts(desk, visitor, saving, drafts);
  if (!checked.ok) return again(new Map(checked.troubles.map(({ problem }) => ['', inEnglish(problem)])));
  if (step === 'save') {
    save(desk, checked.passed);
    return goTo('/farm?saved=1');
  }
  return lookPage(desk, hand, form, base, read.data, asIf(desk, checked.passed));
};
