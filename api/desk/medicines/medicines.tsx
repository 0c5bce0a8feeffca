/** The list of medicines with what their labels say, and what is on the shelf of each. */
import type { Listing } from '../../../projections/farm.ts';
import { medicineKey } from '../../../projections/farm.ts';
import { medicineStock, type StockRow } from '../../../projections/medicine-stock.ts';
import { medicinesGiven } from '../../../projections/medicines-given.ts';
import { instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { type Sentence, say } from '../say.tsx';
import { LabelCaution } from './medicine-form.tsx';
import { forSays, listedMedicines, meatSays, milkSays } from './medicine-words.ts';

export const medicineListPages: readonly DeskPage[] = [
  { method: 'get', path: '/medicines', right: 'herd', run: (desk, ask) => listPage(desk, ask) },
];

const DONE: Readonly<Record<string, Sentence>> = {
  listed: 'The label is written down.',
  received: 'The delivery is written down.',
  disposed: 'It is written down as gone from the shelf.',
};

const listPage = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const hand = atHand(desk, ask.visitor, '/medicines');
  if (hand === undefined) return goTo('/begin');
  const { known } = hand.answer;
  const medicines = listedMedicines(known.farm, desk.now());
  const done = DONE[ask.url.searchParams.get('done') ?? ''];
  const mayList = mayWrite(ask.visitor.caller.role, 'medicine-listed');
  const mayStock = mayWrite(ask.visitor.caller.role, 'medicine-received');
  return page({
    ...hand.frame,
    title: say('Medicines'),
    children: (
      <>
        {done === undefined ? null : (
          <p class="done" role="status">
            {say(done)}
          </p>
        )}
        <LabelCaution />
        <NotListed names={givenNotListed(hand)} mayList={mayList} />
        <p class="actions">
          {mayList ? (
            <a class="button" href="/medicines/edit">
              {say('List a medicine')}
            </a>
          ) : null}
          {mayStock ? (
            <>
              <a class="button" href="/medicines/received">
                {say('A delivery came')}
              </a>
              <a class="button" href="/medicines/disposed">
                {say('Something was thrown away or handed back')}
              </a>
            </>
          ) : null}
        </p>
        <section aria-label={say('Labels')}>
          <h2>{say('What the labels say')}</h2>
          {medicines.length === 0 ? (
            <p>{say('No medicine is on the list: milk of every treated cow is held without end.')}</p>
          ) : null}
          {medicines.length === 0 ? null : <Labels medicines={medicines} hand={hand} mayList={mayList} />}
        </section>
        <section aria-label={say('Stock')} id="stock">
          <h2>{say('On the shelf')}</h2>
          <Stock rows={medicineStock(known)} hand={hand} />
        </section>
      </>
    ),
  });
};

/** Treatments with a name that no label is listed under: those cows are held without end. */
const givenNotListed = ({ answer: { known } }: AtHand): readonly string[] => {
  const names = new Map<string, string>();
  for (const medicine of medicinesGiven(known.files)) {
    const key = medicineKey(medicine);
    if (!known.farm.listings.has(key)) names.set(key, medicine);
  }
  return [...names.values()].sort();
};

const NotListed = ({ names, mayList }: { names: readonly string[]; mayList: boolean }) =>
  names.length === 0 ? null : (
    <section class="notices alert" aria-label={say('Given and not on the list')}>
      <h2>{say('Given, and not on the list')}</h2>
      <p>
        {say(
          'The cows that had these are held without end until the label is listed or the vet’s time is written down.',
        )}
      </p>
      <ul>
        {names.map((name) => (
          <li>
            {name} {mayList ? <a href={`/medicines/edit?name=${encodeURIComponent(name)}`}>{say('List it')}</a> : null}
          </li>
        ))}
      </ul>
    </section>
  );

const Labels = ({ medicines, hand, mayList }: { medicines: readonly Listing[]; hand: AtHand; mayList: boolean }) => (
  <section class="scroll" tabindex={0} aria-label={say('Labels, the table')}>
    <table>
      <thead>
        <tr>
          <th scope="col">{say('Medicine')}</th>
          <th scope="col">{say('For')}</th>
          <th scope="col">{say('Milk hold')}</th>
          <th scope="col">{say('Meat hold')}</th>
          <th scope="col">{say('Listed')}</th>
        </tr>
      </thead>
      <tbody>
        {medicines.map(({ data, at }) => (
          <tr>
            <th scope="row">
              {mayList ? <a href={`/medicines/edit?name=${encodeURIComponent(data.name)}`}>{data.name}</a> : data.name}
              {data.active === undefined ? null : <span class="hint">{data.active}</span>}
              {data.retired === true ? <strong> {say('no longer used')}</strong> : null}
            </th>
            <td>
              {data.dryCow === undefined
                ? forSays(data.for)
                : say('{classes}; dry-cow product', { classes: forSays(data.for) })}
            </td>
            <td>{milkSays(data.milkHold)}</td>
            <td>{meatSays(data.meatDays)}</td>
            <td>{listedText(at, data.name, hand)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);

const listedText = (at: Listing['at'], name: string, { format, answer }: AtHand): string => {
  const times = answer.known.farm.listings.get(medicineKey(name))?.length ?? 1;
  const since = format.time(instantText(at));
  return times === 1 ? since : say('{since}, {n, plural, one {# listing} other {# listings}}', { since, n: times });
};

const Stock = ({ rows, hand }: { rows: readonly StockRow[]; hand: AtHand }) =>
  rows.length === 0 ? (
    <p>{say('Nothing with a quantity was received, given or thrown away yet.')}</p>
  ) : (
    <section class="scroll" tabindex={0} aria-label={say('Stock, the table')}>
      <table>
        <caption>
          {say('Received less given less thrown away; doses written down without an amount are not counted.')}
        </caption>
        <thead>
          <tr>
            <th scope="col">{say('Medicine')}</th>
            <th scope="col">{say('Batch')}</th>
            <th scope="col">{say('Expires')}</th>
            {(['Received', 'Given', 'Thrown away', 'Left'] as const).map((name) => (
              <th scope="col" class="number">
                {say(name)}
              </th>
            ))}
            <th scope="col">{say('Unit')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>
              <th scope="row">{row.medicine}</th>
              <td>{row.batch ?? say('not written down')}</td>
              <td>{expiresText(row, hand)}</td>
              <td class="number">{row.received}</td>
              <td class="number">{row.used}</td>
              <td class="number">{row.disposed}</td>
              <td class="number">
                <strong>{row.left}</strong>
                {row.left < 0 ? (
                  <span class="hint">{say('more went out than came in: something is not written down')}</span>
                ) : null}
                {row.dosesWithoutAmount > 0 ? (
                  <span class="hint">
                    {say('{n, plural, one {# dose} other {# doses}} with no amount written down: not taken off', {
                      n: row.dosesWithoutAmount,
                    })}
                  </span>
                ) : null}
              </td>
              <td>{row.unit}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

const expiresText = ({ expires, left }: StockRow, { answer, schedule, format }: AtHand): string => {
  if (expires === null) return '';
  const over = expires < schedule.dayOf(answer.asOf) && left > 0;
  const day = format.day(expires);
  return over ? say('{day}: PAST, do not use', { day }) : day;
};
