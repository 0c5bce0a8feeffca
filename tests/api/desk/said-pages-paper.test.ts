/** From paper to the book, drawn in Ukrainian: nothing on those pages is left in English but what goes into the book. */
import { describe, expect, test } from 'vitest';
import { sheetRef } from '../../../shared/sheet-ref.ts';
import { at } from '../../events/a-book.ts';
import { farmEntries, PENICILLIN, SET_UP } from '../server/a-server.ts';
import { type ADesk, aDesk, type Browser, type Seen, tellBook } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

const EARLY = '2026-02-01T12:00:00Z';
const DRY_COW = 'Cloxacillin, dry cow';
const dose = (number: number, time: string, id: string) => ({
  type: 'treatment',
  subject: '101',
  time,
  id,
  data: {
    medicine: PENICILLIN,
    amount: { value: 1, unit: 'tube' },
    route: 'udder',
    quarters: ['left-front'],
    course: { id: 'course-101', dose: number, of: 3, everyHours: 12 },
  },
});

/** A set with a line on every list, issued in the afternoon; now it is half past six in the evening. */
const evening = async (): Promise<{ desk: ADesk; ref: string }> => {
  const setUp = { ...SET_UP, freshPenHours: 48, freshHold: { milkings: 1 }, dryOff: { product: DRY_COW } };
  const desk = await aDesk([
    ...farmEntries().map((entry) => (entry.id === 'set-up' ? { ...entry, data: setUp } : entry)),
    {
      type: 'medicine-listed',
      time: EARLY,
      data: {
        name: DRY_COW,
        for: ['dry'],
        milkHold: 'not-for-milking-cows',
        meatDays: 30,
        dryCow: { milkHoldAfterCalving: 'none' },
      },
    },
    {
      type: 'medicine-listed',
      time: EARLY,
      data: { name: 'Bismuth, sealant', kind: 'sealant', for: ['dry'], milkHold: 'none', meatDays: 0 },
    },
    {
      type: 'calving',
      subject: '103',
      time: '2026-03-10T10:00:00Z',
      data: { calves: [{ sex: 'female', alive: true }], group: 'Fresh' },
    },
    {
      type: 'calving',
      subject: '105',
      time: '2026-03-14T10:00:00Z',
      data: { calves: [{ sex: 'female', alive: true }] },
    },
    { type: 'pregnancy-check', subject: '104', time: EARLY, data: { result: 'pregnant', dueOn: '2026-05-10' } },
  ]);
  tellBook(desk, [
    dose(1, '2026-03-14T05:10:00Z', 'first-dose'),
    {
      type: 'sort-request',
      subject: '102',
      time: '2026-03-14T08:00:00Z',
      id: 'lame',
      data: { reason: 'lame', to: 'Crush' },
    },
  ]);
  await desk.post('/language', { language: 'uk', to: '/' });
  const set = await desk.send(await desk.get('/'), {}, '/issue');
  desk.clock.set(at('2026-03-14T18:30:00Z'));
  return { desk, ref: set.path.replace('/issued/', '') };
};

const open = (browser: Browser, ref: string): Promise<Seen> => browser.get(`/paper?ref=${ref}`);
const left = (desk: ADesk, page: Seen, ...known: readonly string[]) => leftInEnglish(desk, page, known);
/** As the paper itself says them. */
const REF = 'ACEF-3479-K';

const TICKED: Readonly<Record<string, string | string[]>> = {
  who: 'Jo',
  'dose.0': 'yes',
  'out.0': 'yes',
  'dry.0': 'yes',
  'dry.0.quarters': ['left-front', 'right-hind'],
  'dry.0.sealant-given': 'yes',
  'dry.0.band': 'yes',
  'pen.0.temperature': '39.1',
  'pen.0.milk': 'Jo',
  'sort.0': 'yes',
  'count.0': '5',
  'count.all': '7',
  finished: '16:38',
};
const HAND: Readonly<Record<string, string>> = {
  'hand.0.cow': '999',
  'hand.0.what': 'treatment',
  'hand.0.words': 'Пеніцилін',
  'hand.0.by': 'Jo',
  'hand.0.doses': '3',
  'hand.0.hours': '12',
  'hand.1.cow': '106',
  'hand.1.what': 'milk-hold',
  'hand.1.words': 'згустки',
  'hand.2.cow': '107',
  'hand.2.what': 'group-move',
  'hand.2.words': 'Dry',
  'hand.2.by': 'Jo',
};

describe('in Ukrainian nothing is left in English', () => {
  test('where a sheet is asked for, on its form, and where it is read over, saved, and opened again', async () => {
    const { desk, ref } = await evening();
    expect(left(desk, await desk.get('/paper'), REF)).toEqual([]);
    expect(left(desk, await desk.get('/paper?ref=2222-2222'), REF, '2222')).toEqual([]);
    const form = await open(desk, ref);
    const names = [...form.document.querySelectorAll('input[type=checkbox]')].map((each) => each.getAttribute('name'));
    expect(names).toEqual(expect.arrayContaining(['dose.0', 'out.0', 'dry.0', 'sort.0']));
    expect(left(desk, form)).toEqual([]);
    const nothing = await desk.send(form, { step: 'read' }, '/paper');
    expect(nothing.text).toContain('НЕ дано');
    expect(left(desk, nothing)).toEqual([]);
    const read = await desk.send(form, { ...TICKED, ...HAND, step: 'read' }, '/paper');
    expect(read.status).toBe(200);
    expect(read.text).toContain('Буде записано');
    expect(left(desk, read, 'Jo')).toEqual([]);
    const saved = await desk.send(read, { step: 'save' }, '/paper');
    expect(saved.path).toContain('saved=');
    expect(saved.text).toContain('уже в книзі: дано');
    expect(left(desk, saved)).toEqual([]);
    expect(left(desk, await desk.send(form, { ...TICKED, step: 'read' }, '/paper'))).toEqual([]);
    const empty = await desk.send(await open(desk, ref), { step: 'read' }, '/paper');
    expect(empty.status).toBe(400);
    expect(left(desk, empty)).toEqual([]);
  });

  test('where what was typed cannot be saved', async () => {
    const { desk, ref } = await evening();
    const form = await open(desk, ref);
    const wrong: readonly Record<string, string>[] = [
      { 'dose.0': 'yes' },
      { 'dose.0.by': 'Jo' },
      { who: 'Jo', 'dose.0': 'yes', 'dose.0.time': '2026-03-14T19:00' },
      { 'sort.0': 'yes', 'sort.0.time': '2026-03-10T19:00' },
      { 'hand.0.cow': '103' },
      { 'hand.0.cow': '10/3', 'hand.0.what': 'milk-hold', 'hand.0.words': 'згустки' },
      { 'hand.0.what': 'treatment' },
      { 'hand.0.what': 'treatment', 'hand.0.words': PENICILLIN },
      { 'hand.0.cow': '103', 'hand.0.what': 'treatment', 'hand.0.words': PENICILLIN },
      { 'hand.0.cow': '103', 'hand.0.what': 'treatment', 'hand.0.words': PENICILLIN, who: 'Jo', 'hand.0.doses': '2' },
      { 'hand.0.cow': '103', 'hand.0.what': 'treatment', 'hand.0.words': PENICILLIN, who: 'Jo', 'hand.0.amount': '2' },
      { 'hand.0.cow': '103', 'hand.0.what': 'group-move', 'hand.0.words': 'Луг' },
      { 'hand.0.cow': '103', 'hand.0.what': 'milk-hold', 'hand.0.words': 'згустки', 'hand.0.time': 'полудень' },
      { finished: '16:10' },
      { finished: '18:45' },
      { finished: 'пізно' },
      { 'count.0': 'шість' },
      { 'count.0.time': '2026-03-14T16:35' },
    ];
    for (const fields of wrong) {
      const answer = await desk.send(form, { ...fields, step: 'save' }, '/paper');
      expect(answer.status, JSON.stringify(fields)).toBe(400);
      // How a time is written has a letter between the day and the hour.
      expect(left(desk, answer, 'Jo', 'T17'), JSON.stringify(fields)).toEqual([]);
    }
  });

  test('where the book has changed since, another set is the later one, or the milking has not begun', async () => {
    const { desk, ref } = await evening();
    const read = await desk.send(await open(desk, ref), { who: 'Jo', 'dose.0': 'yes', step: 'read' }, '/paper');
    tellBook(desk, [
      dose(2, '2026-03-14T16:35:00Z', 'by-phone'),
      { type: 'number-changed', subject: '104', time: '2026-03-14T17:30:00Z', data: { to: '904' } },
      { type: 'group-move', subject: '103', time: '2026-03-14T17:30:00Z', data: { to: 'Dry' } },
      {
        type: 'entry-struck',
        time: '2026-03-14T17:30:00Z',
        data: { entry: 'lame', reason: 'twice', instead: 'nothing' },
      },
    ]);
    const again = await desk.send(read, { step: 'save' }, '/paper');
    expect(again.text).toContain('до книги щось надійшло');
    expect(left(desk, again, 'Jo')).toEqual([]);
    const set = desk.book.read().entries.find((entry) => entry.type === 'sheet-issued');
    if (set?.type !== 'sheet-issued') throw new Error('a set is issued');
    const other = sheetRef('a'.repeat(16));
    const sheets = set.data.sheets.map((each) => (each.sheet === 'sort' ? { ...each, content: { lines: 3 } } : each));
    desk.book.recordOwn('sheet-issued', { ...set.data, ref: other, book: 'another-book', sheets });
    expect(left(desk, await open(desk, ref))).toEqual([]);
    const later = await open(desk, other);
    expect(later.text).toContain('видала інша книга');
    expect(left(desk, later)).toEqual([]);
    const keeper = await desk.as('record-keeper', 'Ann');
    await keeper.post('/language', { language: 'uk', to: '/' });
    expect(left(desk, await open(keeper, ref), 'Ann')).toEqual([]);
    desk.clock.set(at('2026-03-14T16:29:00Z'));
    const early = await open(desk, ref);
    expect(early.status).toBe(409);
    expect(left(desk, early)).toEqual([]);
  });

  test('the sentence of the book about what a device may not write is marked as English', async () => {
    const { desk, ref } = await evening();
    const keeper = await desk.as('record-keeper', 'Ann');
    await keeper.post('/language', { language: 'uk', to: '/' });
    const forced = await keeper.send(await open(keeper, ref), { who: 'Jo', 'dose.0': 'yes', step: 'save' }, '/paper');
    expect(forced.status).toBe(400);
    expect(forced.document.querySelector('[role=alert] [lang=en]')?.textContent).toContain('may not write a treatment');
  });
});
