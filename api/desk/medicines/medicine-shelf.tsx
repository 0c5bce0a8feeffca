/** What came onto the shelf, and what left it other than into a cow. */

import { medicineStock, type StockRow } from '../../../projections/medicine-stock.ts';
import { mayWrite } from '../../devices/roles.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { type Given, Input, NO_PROBLEMS, type Problems, typedOf, Wrong } from '../controls.tsx';
import { figuresOf, filled } from '../farm/farm-figures.ts';
import { sentenceFor } from '../farm/farm-read.ts';
import { goTo, page } from '../layout.tsx';
import { checkDrafts, type Draft, SAVED_ALREADY, save, savedBefore } from '../saving.ts';
import { inEnglish, SaidProblem, type Sentence, say } from '../say.tsx';
import { readWall, wallText } from '../wall-time.ts';
import { listedMedicines } from './medicine-words.ts';

type Way = 'received' | 'disposed';

const TITLES: Readonly<Record<Way, Sentence>> = {
  received: 'A delivery came',
  disposed: 'Thrown away or handed back',
};

const pagesOf = (way: Way): readonly DeskPage[] => [
  {
    method: 'get',
    path: `/medicines/${way}`,
    right: 'herd',
    run: (desk, ask) => {
      const hand = atHand(desk, ask.visitor, '/medicines');
      if (hand === undefined) return goTo('/begin');
      if (!mayWrite(ask.visitor.caller.role, `medicine-${way}`))
        throw new SaidProblem('not-allowed', 'The manager or the record keeper writes down what is on the shelf');
      const medicine = ask.url.searchParams.get('medicine');
      const typed = typedOf(
        new Map([
          ['at', [wallText(hand.schedule.inForceAt(desk.now()).zone, desk.now())]],
          ...(medicine === null ? [] : [['medicine', [medicine]] as const]),
        ]),
      );
      return formPage(desk, hand, way, ask.visitor.once(), { typed, problems: NO_PROBLEMS });
    },
  },
  { method: 'post', path: `/medicines/${way}`, right: 'push', run: (desk, ask) => written(desk, ask, way) },
];

export const medicineShelfPages: readonly DeskPage[] = [...pagesOf('received'), ...pagesOf('disposed')];

const formPage = (desk: Desk, hand: AtHand, way: Way, once: string, given: Given, status = 200) => {
  const stock = medicineStock(hand.answer.known);
  const names = listedMedicines(hand.answer.known.farm, desk.now()).map(({ data }) => data.name);
  return page(
    {
      ...hand.frame,
      title: say(TITLES[way]),
      children: (
        <>
          <Wrong problems={given.problems} />
          <form class="card" method="post" action={`/medicines/${way}`}>
            <input type="hidden" name="once" value={once} />
            <Input
              label={say('Medicine')}
              name="medicine"
              given={given}
              list="medicines"
              required
              hint={say('As it stands on the list of medicines')}
            />
            <div class="row">
              <Input label={say('How much')} name="quantity" given={given} figures required />
              <Input
                label={say('Unit')}
                name="unit"
                given={given}
                list="units"
                required
                hint={say('The one that doses are written in, such as tube or ml: units are not converted')}
              />
              <Input label={say('Batch')} name="batch" given={given} list="batches" />
              {way === 'received' ? <Input label={say('Expires')} name="expires" given={given} type="date" /> : null}
            </div>
            {way === 'received' ? (
              <div class="row">
                <Input label={say('Supplier')} name="supplier" given={given} />
                <Input label={say('Supplier’s address')} name="supplierAddress" given={given} />
                <Input
                  label={say('Proof of purchase')}
                  name="proof"
                  given={given}
                  hint={say('Such as the number of the invoice')}
                />
              </div>
            ) : (
              <Input
                label={say('How and why')}
                name="how"
                given={given}
                hint={say('Such as: expired, handed back to the vet')}
              />
            )}
            <Input label={say('When')} name="at" given={given} type="datetime-local" required />
            <List id="medicines" values={names} />
            <List
              id="units"
              values={unique(
                stock.map(({ unit }) => unit),
                ['tube', 'ml', 'bolus', 'g'],
              )}
            />
            <List id="batches" values={unique(stock.flatMap(({ batch }: StockRow) => batch ?? []))} />
            <p class="actions">
              <button type="submit">{say('Save')}</button>
              <a href="/medicines">{say('Leave it')}</a>
            </p>
          </form>
        </>
      ),
    },
    status,
  );
};

const unique = (...values: readonly (readonly string[])[]): string[] => [...new Set(values.flat())];

const List = ({ id, values }: { id: string; values: readonly string[] }) => (
  <datalist id={id}>
    {values.map((value) => (
      <option value={value} />
    ))}
  </datalist>
);

const written = (desk: Desk, { form, visitor }: Ask, way: Way): Response | Promise<Response> => {
  const saving = savingOf(form);
  const hand = atHand(desk, visitor, '/medicines');
  if (hand === undefined) return goTo('/begin');
  const problems = new Map<string, string>();
  const again = (wrong: Problems, once = form.one('once') ?? '') =>
    formPage(desk, hand, way, once, { typed: form, problems: wrong }, 400);
  const value = figuresOf(form, problems).number('quantity');
  const need = (name: string, sentence: string): void => {
    if (form.one(name) === undefined) problems.set(name, sentence);
  };
  need('medicine', say('Say which medicine it was'));
  need('quantity', say('Say how much it was'));
  need('unit', say('Say in which unit, such as tube or ml'));
  if (value === 0) problems.set('quantity', say('Nothing was moved then: give more than 0, or leave it'));
  const at = readWall(hand.schedule.inForceAt(desk.now()).zone, form.one('at') ?? '');
  if (!at.ok) problems.set('at', at.problem);
  if (problems.size > 0 || !at.ok) return again(problems);
  const text = (name: string): string | undefined => form.one(name);
  const drafts: Draft[] = [
    {
      type: `medicine-${way}`,
      at: at.value,
      data: filled({
        medicine: text('medicine'),
        quantity: { value, unit: text('unit') },
        batch: text('batch'),
        ...(way === 'received'
          ? {
              expires: text('expires'),
              supplier: text('supplier'),
              supplierAddress: text('supplierAddress'),
              proof: text('proof'),
            }
          : { how: text('how') }),
      }),
    },
  ];
  const before = savedBefore(desk, saving, drafts);
  if (before === 'same') return goTo(`/medicines?done=${way}#stock`);
  if (before === 'other') return again(new Map([['', say(SAVED_ALREADY)]]), visitor.once());
  const checked = checkDrafts(desk, visitor, saving, drafts);
  if (!checked.ok)
    return again(
      new Map(checked.troubles.map(({ problem, pointer }) => [fieldOf(pointer), inEnglish(sentenceFor(problem))])),
    );
  save(desk, checked.passed);
  return goTo(`/medicines?done=${way}#stock`);
};

/** `/data/quantity/unit` → `unit`, `/time` → `at`. */
const fieldOf = (pointer = ''): string => {
  if (pointer === '/time') return 'at';
  const last = pointer.split('/').at(-1) ?? '';
  return pointer.startsWith('/data/') ? (last === 'value' ? 'quantity' : last) : '';
};
