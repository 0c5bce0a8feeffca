/**
 * First run, the medicines: names by active ingredient to tick, none of them ticked and none with a time beside it. The
 * times are typed from the package in the hand; what is not known is listed as unknown, by choice.
 */
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import { medicineKey } from '../../../projections/farm.ts';
import { MEDICINES } from '../../../seeds/medicines.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { atHand } from '../at-hand.ts';
import {
  Choice,
  type Given,
  Input,
  NO_PROBLEMS,
  type Problems,
  Tick,
  type Typed,
  typedOf,
  Wrong,
} from '../controls.tsx';
import { goTo, page } from '../layout.tsx';
import { LabelCaution } from '../medicines/medicine-form.tsx';
import { readLabel } from '../medicines/medicine-read.ts';
import { choicesOf, MILK_WORDS } from '../medicines/medicine-words.ts';
import { checkDrafts, type Draft, SAVED_ALREADY, save, savedBefore } from '../saving.ts';
import { inEnglish, say, sayWith } from '../say.tsx';
import { mustBeManager, Steps } from './begin.tsx';
import { stepsOf } from './begin-steps.ts';

export const beginMedicinePages: readonly DeskPage[] = [
  {
    method: 'get',
    path: '/begin/medicines',
    right: 'herd',
    run: (desk, ask) => {
      mustBeManager(ask);
      return step(desk, ask, ask.visitor.once(), { typed: typedOf(new Map()), problems: NO_PROBLEMS });
    },
  },
  { method: 'post', path: '/begin/medicines', right: 'push', run: (desk, ask) => written(desk, ask) },
];

/** Names, routes and classes to begin with. Dry-cow products have more to say: they are listed on the full form. */
const STARTERS: readonly MedicineListed[] = Object.values(MEDICINES).filter(
  (label: MedicineListed) => label.dryCow === undefined && label.kind === 'medicine',
);
const OWN_ROWS = 4;

interface Offered {
  readonly row: number;
  /** Undefined: the name is typed. */
  readonly starter: MedicineListed | undefined;
}

const OFFERED: readonly Offered[] = [
  ...STARTERS.map((starter, row) => ({ row, starter })),
  ...Array.from({ length: OWN_ROWS }, (_, index) => ({ row: STARTERS.length + index, starter: undefined })),
];

const at = (row: number, field: string): string => `medicine-${row}-${field}`;

const step = (desk: Desk, { visitor }: Ask, once: string, given: Given, status = 200): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/');
  if (hand === undefined) return goTo('/begin');
  const { farm } = hand.answer.known;
  const listed = [...farm.listings.values()].flatMap((listings) => listings.at(-1)?.data.name ?? []).sort();
  return page(
    {
      ...hand.frame,
      title: say('Medicines on your shelf'),
      children: (
        <>
          <Steps steps={stepsOf(hand.answer.known)} at="/begin/medicines" />
          <LabelCaution />
          {listed.length === 0 ? null : <p>{say('On the list: {names}.', { names: listed.join('; ') })}</p>}
          <Wrong problems={given.problems} />
          <form method="post" action="/begin/medicines">
            <input type="hidden" name="once" value={once} />
            <p>
              {say(
                'Tick what stands on your shelf, and type its times from the package. These names are only a start: nothing is ticked, and no time is filled in, because packages differ.',
              )}
            </p>
            <div class="rows">
              {OFFERED.filter(
                ({ starter }) => starter === undefined || !farm.listings.has(medicineKey(starter.name)),
              ).map(({ row, starter }) => (
                <fieldset>
                  <legend>{starter?.name ?? say('Another one')}</legend>
                  <div class="whole">
                    {starter === undefined ? (
                      <Input label={say('Name, by active ingredient and route')} name={at(row, 'name')} given={given} />
                    ) : (
                      <Tick label={say('On the shelf')} name={at(row, 'here')} given={given} />
                    )}
                    <Choice
                      label={say('Milk hold on the label')}
                      name={at(row, 'milk')}
                      given={given}
                      options={[['', say('choose')], ['hold', say('hours or milkings:')], ...choicesOf(MILK_WORDS)]}
                    />
                  </div>
                  <Input label={say('Hours')} name={at(row, 'milkHours')} given={given} figures />
                  <Input label={say('Milkings')} name={at(row, 'milkMilkings')} given={given} figures />
                  <Choice
                    label={say('Meat hold')}
                    name={at(row, 'meat')}
                    given={given}
                    options={[
                      ['', say('choose')],
                      ['days', say('days:')],
                      ['unknown', say('unknown: hold')],
                    ]}
                  />
                  <Input label={say('Days')} name={at(row, 'meatDays')} given={given} figures />
                </fieldset>
              ))}
            </div>
            <p>
              {sayWith('Dry-cow products, and labels with steps by doses: <a>list each on its own page</a>.', {
                a: (inner) => <a href="/medicines/edit">{inner}</a>,
              })}
            </p>
            <p class="actions">
              <button type="submit">{say('Save these, then the herd')}</button>
              <a href="/begin/herd">{say('Later: go on with the herd')}</a>
            </p>
          </form>
        </>
      ),
    },
    status,
  );
};

/** The fields of one row, by the names that the form of one label has. */
const rowOf = (typed: Typed, row: number): Typed => ({
  one: (name) => typed.one(at(row, name)),
  all: (name) => typed.all(at(row, name)),
  names: () => typed.names(),
});

const FIELDS = ['name', 'milk', 'milkHours', 'milkMilkings', 'meat', 'meatDays'];

const written = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const { form, visitor } = ask;
  mustBeManager(ask);
  const saving = savingOf(form);
  const problems = new Map<string, string>();
  const drafts: Draft[] = [];
  const { farm } = desk.knowing.now().known;
  const names = new Set<string>();
  for (const { row, starter } of OFFERED) {
    const typed = rowOf(form, row);
    const touched = FIELDS.some((name) => typed.one(name) !== undefined);
    if (starter !== undefined && typed.one('here') === undefined) {
      if (touched)
        problems.set(
          at(row, 'here'),
          say('Times of {name} are given: tick that it is on the shelf, or clear them', { name: starter.name }),
        );
      continue;
    }
    if (starter === undefined && !touched) continue;
    // Of a starting name only what it is, never what it holds.
    const { name, active, kind, route } = starter ?? {};
    const fixed = new Map(Object.entries({ name, active, kind, route }));
    const read = readLabel({ ...typed, one: (field) => fixed.get(field) ?? typed.one(field) }, {});
    if (!read.ok) {
      for (const [name, sentence] of read.problems) problems.set(at(row, name), sentence);
      continue;
    }
    const key = medicineKey(read.data.name);
    if (names.has(key))
      problems.set(at(row, 'name'), say('{name} stands here twice; keep one of them', { name: read.data.name }));
    names.add(key);
    drafts.push({ type: 'medicine-listed', at: desk.now(), data: read.data });
  }
  const once = form.one('once') ?? '';
  const again = (wrong: Problems, as = once) => step(desk, ask, as, { typed: form, problems: wrong }, 400);
  if (problems.size > 0) return again(problems);
  if (drafts.length === 0)
    return again(new Map([['', say('No medicine is ticked or typed. To list them later, go on with the herd')]]));
  const before = savedBefore(desk, saving, drafts);
  if (before === 'same') return goTo('/begin/herd');
  if (before === 'other') return again(new Map([['', say(SAVED_ALREADY)]]), visitor.once());
  const listed = [...names].find((key) => farm.listings.has(key));
  if (listed !== undefined)
    return again(
      new Map([
        [
          '',
          say('{name} is on the list already; change it on the page Medicines', {
            name: farm.listings.get(listed)?.at(-1)?.data.name ?? '',
          }),
        ],
      ]),
    );
  const checked = checkDrafts(desk, visitor, saving, drafts);
  if (!checked.ok) return again(new Map(checked.troubles.map(({ problem }) => ['', inEnglish(problem)])));
  save(desk, checked.passed);
  return goTo('/begin/herd');
};
