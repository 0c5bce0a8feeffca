/**
 * The first run: a farm from nothing to its first sheets. Each step writes entries into the book, so that closing the
 * browser loses no step, and nothing here can be done that the ordinary pages do not do too.
 */
import type { FarmSetUp } from '../../../events/kinds/farm-set-up.ts';
import { kindsFor } from '../../devices/roles.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { frameOf } from '../at-hand.ts';
import { type Given, NO_PROBLEMS, type Problems, Wrong } from '../controls.tsx';
import { FreshPart, GroupsPart, MilkingsPart, NameAndZone, ParlourPart } from '../farm/farm-form.tsx';
import { readSetUp } from '../farm/farm-read.ts';
import { typedSetUp } from '../farm/farm-typed.ts';
import { goTo, page } from '../layout.tsx';
import { checkDrafts, type Draft, save, savedBefore } from '../saving.ts';
import { inEnglish, SaidProblem, say, sayWith } from '../say.tsx';
import { type Step, stepsOf } from './begin-steps.ts';

export const beginPages: readonly DeskPage[] = [
  {
    method: 'get',
    path: '/begin',
    right: 'herd',
    run: (desk, ask) => {
      if (desk.knowing.now().known.farm.schedule !== undefined) return overview(desk, ask);
      return isManager(ask)
        ? farmStep(desk, ask, ask.visitor.once(), { typed: typedSetUp(FIRST), problems: NO_PROBLEMS }, 2)
        : page({
            ...frameOf(desk, ask.visitor, '/'),
            title: say('No farm yet'),
            children: <p>{say('This book has no farm yet. The manager sets it up here.')}</p>,
          });
    },
  },
  { method: 'post', path: '/begin', right: 'push', run: (desk, ask) => begun(desk, ask) },
];

export const isManager = ({ visitor }: Ask): boolean => kindsFor(visitor.caller.role) === null;

/** For the pages that only the manager goes through. */
export const mustBeManager = (ask: Ask): void => {
  if (!isManager(ask)) throw new SaidProblem('not-allowed', 'The manager sets the farm up');
};

const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/**
 * Names that can be kept or changed; times and figures are the farm's own. The zone is this computer's, unless that is
 * one which computers have that nobody told where they stand.
 */
const FIRST: Partial<FarmSetUp> = {
  ...(/^(Etc\/.*|UTC|GMT)$/.test(HERE) ? {} : { timeZone: HERE }),
  milkings: [
    { name: 'morning', start: '' },
    { name: 'afternoon', start: '' },
  ],
  groups: [
    { name: 'Milkers', kind: 'milking' },
    { name: 'Fresh', kind: 'fresh' },
    { name: 'Hospital', kind: 'hospital' },
    { name: 'Dry', kind: 'dry' },
    { name: 'Close-up', kind: 'close-up' },
  ],
};

/** The steps above each of these pages, with where one is. */
export const Steps = ({ steps, at }: { steps: readonly Step[]; at: string }) => (
  <ol class="steps">
    {steps.map(({ path, name, done, says }, index) => (
      <li aria-current={path === at ? 'step' : undefined}>
        <strong>
          {index + 1}. {path === at || (index > 0 && !steps[0]?.done) ? name : <a href={path}>{name}</a>}
        </strong>{' '}
        {done ? say('done: {what}', { what: says }) : `(${says})`}
      </li>
    ))}
  </ol>
);

const farmStep = (desk: Desk, { visitor }: Ask, once: string, given: Given, spare: number, status = 200) =>
  page(
    {
      ...frameOf(desk, visitor, '/'),
      title: say('Set up the farm'),
      children: (
        <>
          <p class="lead">
            {say(
              'Five minutes, then the first sheets. What you save stays when you close the browser, and all of it can be changed later.',
            )}
          </p>
          <Steps steps={stepsOf(desk.knowing.now().known)} at="/begin" />
          <p class="notices doubt">
            {sayWith(
              'Does this farm have a book on another computer? Then set nothing up here: let this book take it over with <command></command>. Two books that began apart cannot be joined.',
              { command: () => <code lang="en">byrebook sync</code> },
            )}
          </p>
          <Wrong problems={given.problems} />
          <form method="post" action="/begin">
            <input type="hidden" name="once" value={once} />
            {/* The first button of a form is the one that the Enter key presses. */}
            <button class="unseen" type="submit" name="step" value="save">
              {say('Save the farm')}
            </button>
            <NameAndZone given={given} />
            <MilkingsPart given={given} />
            <ParlourPart given={given} />
            <GroupsPart given={given} spare={spare} />
            <FreshPart given={given} />
            <p class="actions">
              <button type="submit" name="step" value="save">
                {say('Save the farm, then the medicines')}
              </button>
            </p>
          </form>
        </>
      ),
    },
    status,
  );

const begun = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const { form, visitor } = ask;
  const saving = savingOf(form);
  const once = form.one('once') ?? '';
  if (form.one('step') === 'rows') return farmStep(desk, ask, once, { typed: form, problems: NO_PROBLEMS }, 6);
  const read = readSetUp(form, {});
  const refuse = (problems: Problems) => farmStep(desk, ask, once, { typed: form, problems }, 2, 400);
  if (!read.ok) return refuse(read.shown);
  const drafts: Draft[] = [{ type: 'farm-set-up', at: desk.now(), data: read.data }];
  if (savedBefore(desk, saving, drafts) === 'same') return goTo('/begin/medicines');
  const { schedule } = desk.knowing.now().known.farm;
  if (schedule !== undefined)
    throw new SaidProblem(
      'not-valid',
      'The farm {name} is set up in this book already; what you typed was not saved. Change it on the page Farm',
      { name: schedule.setUps.at(-1)?.data.name ?? '' },
    );
  const checked = checkDrafts(desk, visitor, saving, drafts);
  if (!checked.ok) return refuse(new Map(checked.troubles.map(({ problem }) => ['', inEnglish(problem)])));
  save(desk, checked.passed);
  return goTo('/begin/medicines');
};

const overview = (desk: Desk, { visitor }: Ask): Promise<Response> => {
  const steps = stepsOf(desk.knowing.now().known);
  const next = steps.find(({ done }) => !done);
  const fresh = desk.knowing.now().known.farm.schedule?.setUps.at(-1)?.data.freshHold;
  return page({
    ...frameOf(desk, visitor, '/'),
    title: say('Setting up'),
    children: (
      <>
        <Steps steps={steps} at={next?.path ?? ''} />
        {fresh?.hours === undefined && fresh?.milkings === undefined ? (
          <p class="problem">
            {sayWith(
              'No fresh hold is set, so every cow that calves is held without end. Ask your milk buyer and the vet, then <a>set it</a>.',
              { a: (inner) => <a href="/farm/change">{inner}</a> },
            )}
          </p>
        ) : null}
        <p class="actions">
          {next === undefined ? (
            <a class="button" href="/">
              {say('To the next milking')}
            </a>
          ) : (
            <a class="button" href={next.path}>
              {next.path === '/' ? say('Print your first sheets') : say('Go on: {step}', { step: next.name })}
            </a>
          )}
          {next === undefined || next.path === '/' ? null : <a href="/">{say('Leave it for now')}</a>}
        </p>
      </>
    ),
  });
};
