/** The vet's times for a hold without an end: hours for milk, days for meat, who said so and when. */
import type { Child } from 'hono/jsx';
import { type Ask, type Desk, savingOf, type Visitor } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { Field } from '../field.tsx';
import { goTo, page } from '../layout.tsx';
import { inEnglish, say } from '../say.tsx';
import { readWall, wallText } from '../wall-time.ts';
import { answeredBefore, readThenSave } from './open-saving.tsx';

interface Typed {
  readonly milkHours: string;
  readonly meatDays: string;
  readonly prescribedBy: string;
  readonly at: string;
}
type Problems = Readonly<Partial<Record<keyof Typed, Child>>>;

interface Given {
  readonly cow: string;
  readonly treatment: string;
  readonly number: number;
  readonly hand: AtHand;
  readonly visitor: Visitor;
  readonly once?: string;
  readonly typed?: Typed;
  readonly problems?: Problems;
}

export const VetTimes = ({ cow, treatment, number, hand, visitor, once, typed, problems = {} }: Given) => {
  const id = (field: string) => `vet-${number}-${field}`;
  return (
    <form
      class="vet"
      method="post"
      action="/open/vet"
      aria-label={say('The vet’s times for {cow}, {number}', { cow, number: String(number) })}
    >
      <input type="hidden" name="once" value={once ?? visitor.once()} />
      <input type="hidden" name="cow" value={cow} />
      <input type="hidden" name="treatment" value={treatment} />
      <div class="row">
        <Field
          id={id('milk')}
          name="milkHours"
          label={say('Milk, hours after the last dose')}
          value={typed?.milkHours}
          problem={problems.milkHours}
          inputmode="decimal"
        />
        <Field
          id={id('meat')}
          name="meatDays"
          label={say('Meat, days after the last dose')}
          value={typed?.meatDays}
          problem={problems.meatDays}
          inputmode="decimal"
        />
        <Field
          id={id('by')}
          name="prescribedBy"
          label={say('Prescribed by')}
          value={typed?.prescribedBy}
          problem={problems.prescribedBy}
          required
          maxlength={80}
        />
        <Field
          id={id('at')}
          name="at"
          label={say('Said at')}
          type="datetime-local"
          value={typed?.at ?? wallText(zoneOf(hand), hand.answer.asOf)}
          problem={problems.at}
          required
        />
      </div>
      <button class="quiet" type="submit">
        {say('See what these times do')}
      </button>
    </form>
  );
};

const zoneOf = ({ answer, schedule }: AtHand) => schedule.inForceAt(answer.asOf).zone;

export const vetPage = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  savingOf(ask.form);
  const { form, visitor } = ask;
  const hand = atHand(desk, visitor, '/open');
  if (hand === undefined) return goTo('/begin');
  const before = answeredBefore(desk, ask);
  if (before !== undefined) return before;
  const cow = form.one('cow') ?? '';
  const treatment = form.one('treatment') ?? '';
  const typed: Typed = {
    milkHours: form.one('milkHours') ?? '',
    meatDays: form.one('meatDays') ?? '',
    prescribedBy: form.one('prescribedBy') ?? '',
    at: form.one('at') ?? '',
  };
  const milkHours = numberIn(typed.milkHours, 'hours');
  const meatDays = numberIn(typed.meatDays, 'days');
  const at = readWall(zoneOf(hand), typed.at);
  const problems: Problems = {
    ...(typeof milkHours === 'string' ? { milkHours } : {}),
    ...(typeof meatDays === 'string' ? { meatDays } : {}),
    ...(milkHours === undefined && meatDays === undefined
      ? { milkHours: say('Give the hours for milk, the days for meat, or both, as the vet said them') }
      : {}),
    ...(typed.prescribedBy === '' ? { prescribedBy: say('Say which vet gave the times') } : {}),
    ...(at.ok ? {} : { at: typed.at === '' ? say('Say when the vet gave them') : at.problem }),
  };
  const again = (what: Problems) =>
    refusedPage({ cow, treatment, number: 0, hand, visitor, typed, problems: what }, ask);
  if (!at.ok || Object.keys(problems).length > 0) return again(problems);
  return readThenSave({
    desk,
    ask,
    hand,
    draft: {
      type: 'vet-hold-time',
      subject: cow,
      at: at.value,
      data: { treatment, milkHours, meatDays, prescribedBy: typed.prescribedBy },
    },
    title: say('Read this, then save'),
    says: (
      <div class="card">
        <p>
          <strong class="cow">{cow}</strong>{' '}
          {say('{times}, prescribed by {vet}.', { times: timesText(typed), vet: typed.prescribedBy })}
        </p>
        <p class="hint">{say('A vet’s time lengthens what the label says and never shortens it.')}</p>
      </div>
    ),
    button: say('Write the vet’s times down'),
    carried: { cow, treatment, ...typed },
    done: 'vet',
    action: '/open/vet',
    again: (troubles) => {
      const FIELDS: readonly (keyof Typed)[] = ['milkHours', 'meatDays', 'prescribedBy'];
      const found = troubles.map(({ pointer, problem }) => {
        const field = FIELDS.find((each) => pointer === `/data/${each}`) ?? (pointer === '/time' ? 'at' : 'milkHours');
        return [field, inEnglish(problem)];
      });
      return again(Object.fromEntries(found));
    },
  });
};

/** A comma for the point is taken; undefined where nothing is typed; a text says what is wrong. */
const numberIn = (typed: string, unit: 'hours' | 'days'): number | string | undefined => {
  if (typed === '') return undefined;
  return /^\d{1,5}([.,]\d{1,2})?$/.test(typed)
    ? Number(typed.replace(',', '.'))
    : say(
        unit === 'hours'
          ? '"{typed}" is not a number of hours; write it in digits, such as 72'
          : '"{typed}" is not a number of days; write it in digits, such as 72',
        { typed: typed.slice(0, 20) },
      );
};

const timesText = ({ milkHours, meatDays }: Typed): string =>
  meatDays === ''
    ? say('milk {hours} hours', { hours: milkHours })
    : milkHours === ''
      ? say('meat {days} days', { days: meatDays })
      : say('milk {hours} hours, meat {days} days', { hours: milkHours, days: meatDays });

const refusedPage = (given: Given, ask: Ask): Promise<Response> =>
  page(
    {
      ...given.hand.frame,
      title: say('The vet’s times for {cow}', { cow: given.cow }),
      children: (
        <div class="card">
          <p class="problem" role="alert">
            {say('Nothing is saved yet: put right what is marked.')}
          </p>
          <VetTimes {...given} once={ask.form.one('once') ?? ''} />
        </div>
      ),
    },
    400,
  );
