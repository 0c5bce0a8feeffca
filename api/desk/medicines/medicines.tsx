/** The list of medicines with what their labels say, and what is on the shelf of each. */
import type { Listing } from '../../../projections/farm.ts';
import { medicineKey } from '../../../projections/farm.ts';
import { medicineStock, type StockRow } from '../../../projections/medicine-stock.ts';
import { instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { LabelCaution } from './medicine-form.tsx';
import { forSays, listedMedicines, meatSays, milkSays } from './medicine-words.ts';

export const medicineListPages: readonly DeskPage[] = [
  { method: 'get', path: '/medicines', right: 'herd', run: (desk, ask) => listPage(desk, ask) },
];

const DONE: Readonly<Record<string, string>> = {
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
    title: 'Medicines',
    children: (
      <>
        {done === undefined ? null : (
          <p class="done" role="status">
            {done}
          </p>
        )}
        <LabelCaution />
        <NotListed names={givenNotListed(hand)} mayList={mayList} />
        <p class="actions">
          {mayList ? (
            <a class="button" href="/medicines/edit">
              List a medicine
            </a>
          ) : null}
          {mayStock ? (
            <>
              <a class="button" href="/medicines/received">
                A delivery came
              </a>
              <a class="button" href="/medicines/disposed">
                Something was thrown away or handed back
              </a>
            </>
          ) : null}
        </p>
        <section aria-label="Labels">
          <h2>What the labels say</h2>
          {medicines.length === 0 ? (
            <p>No medicine is on the list: milk of every treated cow is held without end.</p>
          ) : null}
          {medicines.length === 0 ? null : <Labels medicines={medicines} hand={hand} mayList={mayList} />}
        </section>
        <section aria-label="Stock" id="stock">
          <h2>On the shelf</h2>
          <Stock rows={medicineStock(known)} hand={hand} />
        </section>
      </>
    ),
  });
};

/** Treatments with a name that no label is listed under: those cows are held without end. */
const givenNotListed = ({ answer: { known } }: AtHand): readonly string[] => {
  const names = new Map<string, string>();
  for (const { dosings } of known.files)
    for (const { medicine, medicineKey: key } of dosings) if (!known.farm.listings.has(key)) names.set(key, medicine);
  return [...names.values()].sort();
};

const NotListed = ({ names, mayList }: { names: readonly string[]; mayList: boolean }) =>
  names.length === 0 ? null : (
    <section class="notices alert" aria-label="Given and not on the list">
      <h2>Given, and not on the list</h2>
      <p>The cows that had these are held without end until the label is listed or the vet’s time is written down.</p>
      <ul>
        {names.map((name) => (
          <li>
            {name} {mayList ? <a href={`/medicines/edit?name=${encodeURIComponent(name)}`}>List it</a> : null}
          </li>
        ))}
      </ul>
    </section>
  );

const Labels = ({ medicines, hand, mayList }: { medicines: readonly Listing[]; hand: AtHand; mayList: boolean }) => (
  <section class="scroll" tabindex={0} aria-label="Labels, the table">
    <table>
      <thead>
        <tr>
          <th scope="col">Medicine</th>
          <th scope="col">For</th>
          <th scope="col">Milk hold</th>
          <th scope="col">Meat hold</th>
          <th scope="col">Listed</th>
        </tr>
      </thead>
      <tbody>
        {medicines.map(({ data, at }) => (
          <tr>
            <th scope="row">
              {mayList ? <a href={`/medicines/edit?name=${encodeURIComponent(data.name)}`}>{data.name}</a> : data.name}
              {data.active === undefined ? null : <span class="hint">{data.active}</span>}
              {data.retired === true ? <strong> no longer used</strong> : null}
            </th>
            <td>
              {forSays(data.for)}
              {data.dryCow === undefined ? '' : '; dry-cow product'}
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
  return times === 1 ? since : `${since}, ${times} listings`;
};

const Stock = ({ rows, hand }: { rows: readonly StockRow[]; hand: AtHand }) =>
  rows.length === 0 ? (
    <p>Nothing with a quantity was received, given or thrown away yet.</p>
  ) : (
    <section class="scroll" tabindex={0} aria-label="Stock, the table">
      <table>
        <caption>Received less given less thrown away; doses written down without an amount are not counted.</caption>
        <thead>
          <tr>
            <th scope="col">Medicine</th>
            <th scope="col">Batch</th>
            <th scope="col">Expires</th>
            {['Received', 'Given', 'Thrown away', 'Left'].map((name) => (
              <th scope="col" class="number">
                {name}
              </th>
            ))}
            <th scope="col">Unit</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>
              <th scope="row">{row.medicine}</th>
              <td>{row.batch ?? 'not written down'}</td>
              <td>{expiresText(row, hand)}</td>
              <td class="number">{row.received}</td>
              <td class="number">{row.used}</td>
              <td class="number">{row.disposed}</td>
              <td class="number">
                <strong>{row.left}</strong>
                {row.left < 0 ? (
                  <span class="hint">more went out than came in: something is not written down</span>
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
  return `${format.day(expires)}${over ? ': PAST, do not use' : ''}`;
};
