/** From paper back to the book: a set's lines ticked, read over, saved once; what was not ticked, and what can't be saved. */
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../../events/entry.ts';
import { instantText } from '../../../shared/instant.ts';
import { sheetRef } from '../../../shared/sheet-ref.ts';
import { at } from '../../events/a-book.ts';
import { farmEntries, PENICILLIN, SET_UP } from '../server/a-server.ts';
import { type ADesk, aDesk, type Browser, type Seen, tellBook } from './a-desk.ts';

const OTHER = sheetRef('a'.repeat(16));
const EARLY = '2026-02-01T12:00:00Z';
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
const sortRequest = (id: string, reason: string) => ({
  type: 'sort-request',
  subject: '102',
  time: '2026-03-14T08:00:00Z',
  id,
  data: { reason, to: 'Crush' },
});

/** The afternoon's set, with a dose due for 101, two reasons to sort 102; now it is half past six in the evening. */
const evening = async (): Promise<{ desk: ADesk; ref: string }> => {
  const desk = await aDesk();
  tellBook(desk, [
    dose(1, '2026-03-14T05:10:00Z', 'first-dose'),
    sortRequest('lame', 'lame'),
    sortRequest('bulling', 'bulling'),
  ]);
  return { desk, ref: await issued(desk, '2026-03-14T18:30:00Z') };
};

const issued = async (desk: ADesk, then: string): Promise<string> => {
  const set = await desk.send(await desk.get('/'), {}, '/issue');
  desk.clock.set(at(then));
  return set.path.replace('/issued/', '');
};

const open = (browser: Browser, ref: string): Promise<Seen> => browser.get(`/paper?ref=${ref}`);
const recordedAfter = (desk: ADesk, position: number): readonly Entry[] =>
  desk.book.read().entries.filter((entry) => entry.position > position);
const said = (entries: readonly Entry[]) =>
  entries.map(({ type, subject, at: when, data }) => ({ type, subject, time: instantText(when), data }));
/** Fills in, reads over, saves. */
const writeUp = async (browser: Browser, page: Seen, fields: Record<string, string | string[]>) => {
  const read = await browser.send(page, { ...fields, step: 'read' }, '/paper');
  return { read, saved: await browser.send(read, { step: 'save' }, '/paper') };
};

describe('a set that came back', () => {
  test('R-04 a dose known only by its milking is timed at its planned end, and goes on with its course', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const { read, saved } = await writeUp(desk, await open(desk, ref), { who: 'Jo', 'dose.0': 'yes' });
    expect(read.text).toContain(`101 ${PENICILLIN}, dose 2 of 3 given by Jo, at this milking`);
    expect(read.text).toContain('102 was not sorted');
    expect(said(recordedAfter(desk, before))).toEqual([
      {
        type: 'treatment',
        subject: '101',
        time: '2026-03-14T16:40:00Z',
        data: {
          medicine: PENICILLIN,
          amount: { value: 1, unit: 'tube' },
          route: 'udder',
          quarters: ['left-front'],
          givenBy: 'Jo',
          course: { id: 'course-101', dose: 2, of: 3, everyHours: 12 },
        },
      },
      { type: 'sheet-returned', subject: undefined, time: '2026-03-14T18:30:00Z', data: { ref, by: 'Jo' } },
    ]);
    expect(saved.text).toContain('is returned');
    expect(saved.text).toContain('in the book already: given');
  });

  test('nothing is recorded before it is read over, and the same form twice, or back and saved again, records once', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const page = await open(desk, ref);
    const read = await desk.send(page, { who: 'Jo', 'dose.0': 'yes', step: 'read' }, '/paper');
    expect(recordedAfter(desk, before)).toEqual([]);
    await Promise.all([desk.send(read, { step: 'save' }, '/paper'), desk.send(read, { step: 'save' }, '/paper')]);
    const again = await desk.send(page, { who: 'Jo', 'dose.0': 'yes', 'sort.0': 'yes', step: 'read' }, '/paper');
    expect(again.text).toContain('was saved before and counts once');
    expect(recordedAfter(desk, before).map(({ type }) => type)).toEqual(['treatment', 'sheet-returned']);
  });

  test('R-17 a dose that was not ticked is not given: it is said, and it stays due', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const { read } = await writeUp(desk, await open(desk, ref), {});
    expect(read.text).toContain(`101 ${PENICILLIN}, dose 2 of 3 was NOT given: it stays due`);
    expect(recordedAfter(desk, before).map(({ type }) => type)).toEqual(['sheet-returned']);
    expect((await desk.get('/paper')).text).toContain('Every set of an earlier milking is returned');
  });

  test('R-60 a sort tick ends every request behind the line', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    await writeUp(desk, await open(desk, ref), { 'sort.0': 'yes' });
    const done = recordedAfter(desk, before).flatMap((entry) =>
      entry.type === 'sort-done' ? [entry.data.request] : [],
    );
    expect(done.sort()).toEqual(['bulling', 'lame']);
    expect((await open(desk, ref)).text).toContain('in the book already: sorted');
  });

  test('the lines stand in the order of the paper', async () => {
    const { desk, ref } = await evening();
    const page = await open(desk, ref);
    const titles = [...page.document.querySelectorAll('main h2, main h3')].map(({ textContent }) => textContent);
    expect(titles).toEqual([
      'Milk hold',
      'Treat now',
      'Written by hand since printing',
      'Sort',
      'Head count',
      'The milking',
    ]);
  });

  test('what came into the book between reading and saving is read again, and nothing is recorded twice', async () => {
    const { desk, ref } = await evening();
    const page = await open(desk, ref);
    const read = await desk.send(page, { who: 'Jo', 'dose.0': 'yes', step: 'read' }, '/paper');
    tellBook(desk, [dose(2, '2026-03-14T16:35:00Z', 'by-phone')]);
    const before = desk.book.head().position;
    const again = await desk.send(read, { step: 'save' }, '/paper');
    expect(again.text).toContain('Something came into the book since you read this over');
    expect(again.text).toContain('In the book already, not recorded again');
    expect(recordedAfter(desk, before)).toEqual([]);
    await desk.send(again, { step: 'save' }, '/paper');
    expect(recordedAfter(desk, before).map(({ type }) => type)).toEqual(['sheet-returned']);
  });

  test('a dose that is in the book by another way has no box, with who gave it and when', async () => {
    const { desk, ref } = await evening();
    tellBook(desk, [dose(2, '2026-03-14T16:35:00Z', 'by-phone')]);
    const page = await open(desk, ref);
    expect(page.document.querySelector('input[name="dose.0"]')).toBeNull();
    expect(page.text).toMatch(/in the book already: given .*16:35 \(Marta\)/);
  });

  test('a set returned before says by whom, and takes what was forgotten', async () => {
    const { desk, ref } = await evening();
    await writeUp(desk, await open(desk, ref), { who: 'Jo' });
    const before = desk.book.head().position;
    const page = await open(desk, ref);
    expect(page.text).toContain('came back already: written up Sat 14 Mar 18:30 by Marta, from Jo');
    const empty = await desk.send(page, { step: 'read' }, '/paper');
    expect(empty.status).toBe(400);
    expect(empty.text).toContain('There is nothing new on it');
    await writeUp(desk, page, { 'sort.0': 'yes' });
    expect(recordedAfter(desk, before).map(({ type }) => type)).toEqual(['sort-done', 'sort-done', 'sheet-returned']);
  });
});

describe('what can’t be written up', () => {
  test('a set for a milking that has not begun records nothing and says when to come back', async () => {
    const { desk, ref } = await evening();
    const page = await open(desk, ref);
    desk.clock.set(at('2026-03-14T16:29:00Z'));
    const before = desk.book.head().position;
    const shown = await open(desk, ref);
    expect(shown.status).toBe(409);
    expect(shown.text).toContain('has not begun');
    expect((await desk.send(page, { who: 'Jo', 'dose.0': 'yes', step: 'save' }, '/paper')).status).toBe(409);
    expect(recordedAfter(desk, before)).toEqual([]);
  });

  test('a ref misread, or of no set here, is asked for again with what was typed', async () => {
    const { desk, ref } = await evening();
    const wrong = await desk.get('/paper?ref=ACEF-3479-C');
    expect(wrong.status).toBe(400);
    expect(wrong.text).toContain('has a symbol wrong or two swapped');
    expect(wrong.document.querySelector('#ref')?.getAttribute('value')).toBe('ACEF-3479-C');
    const script = await desk.get('/paper?ref=%3Cscript%3E');
    expect(script.html).not.toContain('<script>');
    expect((await desk.get(`/paper?ref=${ref.toLowerCase().replaceAll('-', '')}`)).text).toContain(ref);
  });

  test('a dose without a giver, initials without a tick and a time still to come are each refused, and nothing is saved', async () => {
    const { desk, ref } = await evening();
    const page = await open(desk, ref);
    const before = desk.book.head().position;
    const giver = await desk.send(page, { 'dose.0': 'yes', 'sort.0': 'yes', step: 'read' }, '/paper');
    expect(giver.status).toBe(400);
    expect(giver.text).toContain('Say who gave it');
    expect(giver.document.querySelector('input[name="sort.0"]')?.hasAttribute('checked')).toBe(true);
    const stray = await desk.send(page, { 'dose.0.by': 'JB', step: 'save' }, '/paper');
    expect(stray.text).toContain('it is not ticked');
    const late = { who: 'Jo', 'dose.0': 'yes', 'dose.0.time': '2026-03-14T19:00', step: 'read' };
    const ahead = await desk.send(page, late, '/paper');
    expect(ahead.text).toContain('still to come');
    expect(ahead.document.querySelector('input[name="dose.0.time"]')?.getAttribute('value')).toBe('2026-03-14T19:00');
    expect(recordedAfter(desk, before)).toEqual([]);
  });

  test('a form of nobody and a page not signed in save nothing', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    expect((await desk.post('/paper', { ref, step: 'save' })).status).toBe(403);
    const other = await desk.as('manager', 'Ola');
    const read = await desk.send(await open(desk, ref), { step: 'read' }, '/paper');
    expect((await other.send(read, { step: 'save' }, '/paper')).status).toBe(403);
    await desk.post('/sign-out', {});
    expect((await desk.get('/paper')).path).toContain('/sign-in');
    expect(recordedAfter(desk, before)).toEqual([]);
  });

  test('a record keeper returns the set and ticks nothing; crew tick', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const keeper = await desk.as('record-keeper', 'Ann');
    const page = await open(keeper, ref);
    expect(page.document.querySelector('input[name="dose.0"]')).toBeNull();
    expect(page.text).toContain('This device returns the sheet with its notes');
    const forced = await keeper.send(page, { who: 'Jo', 'dose.0': 'yes', step: 'save' }, '/paper');
    expect(forced.status).toBe(400);
    expect(forced.text).toContain('may not write a treatment');
    expect(recordedAfter(desk, before)).toEqual([]);
    const crew = await desk.as('crew', 'Jo');
    await writeUp(crew, await open(crew, ref), { who: 'Jo', 'dose.0': 'yes' });
    expect(recordedAfter(desk, before).map(({ type, author }) => [type, author])).toEqual([
      ['treatment', 'Jo'],
      ['sheet-returned', 'Jo'],
    ]);
  });
});

describe('who the numbers mean', () => {
  test('a cow that got another number since is written under the one she had then, and said', async () => {
    const { desk, ref } = await evening();
    tellBook(desk, [{ type: 'number-changed', subject: '101', time: '2026-03-14T17:30:00Z', data: { to: '901' } }]);
    const before = desk.book.head().position;
    const page = await open(desk, ref);
    expect(page.text).toContain('her number is 901 now');
    await writeUp(desk, page, { who: 'Jo', 'dose.0': 'yes' });
    expect(recordedAfter(desk, before)[0]).toMatchObject({ type: 'treatment', subject: '101' });
    expect((await open(desk, ref)).text).toContain('in the book already: given');
    expect((await desk.get('/')).text).not.toContain('Find first');
  });

  test('a cow whose entry was struck since is said; the set of another book is written up all the same', async () => {
    const { desk, ref } = await evening();
    tellBook(desk, [
      {
        type: 'entry-struck',
        time: '2026-03-14T17:30:00Z',
        data: { entry: 'cow-102', reason: 'twice', instead: 'nothing' },
      },
    ]);
    expect((await open(desk, ref)).text).toContain('no cow of the herd is 102 at that milking any more');
    const set = desk.book.read().entries.find((entry) => entry.type === 'sheet-issued');
    if (set?.type !== 'sheet-issued') throw new Error('a set is issued');
    desk.book.recordOwn('sheet-issued', { ...set.data, ref: OTHER, book: 'another-book' });
    const page = await open(desk, OTHER);
    expect(page.text).toContain('issued by another book of this farm');
    const { saved } = await writeUp(desk, page, { who: 'Jo', 'dose.0': 'yes' });
    expect(saved.text).toContain(`${OTHER} is returned`);
    const first = await open(desk, ref);
    expect(first.text).toContain(`A later set for this milking is ${OTHER}`);
    expect(first.document.querySelector('input[name="dose.0"]')).toBeNull();
  });

  test('rows that this version can’t read are named, and the rest is written up', async () => {
    const { desk } = await evening();
    const set = desk.book.read().entries.find((entry) => entry.type === 'sheet-issued');
    if (set?.type !== 'sheet-issued') throw new Error('a set is issued');
    const sheets = set.data.sheets.map((each) => (each.sheet === 'sort' ? { ...each, content: { lines: 3 } } : each));
    desk.book.recordOwn('sheet-issued', { ...set.data, ref: OTHER, sheets });
    const page = await open(desk, OTHER);
    expect(page.text).toContain('The lines of its sort sheet can’t be read');
    expect(page.document.querySelector('input[name="dose.0"]')).not.toBeNull();
  });
});

describe('the rest of the paper', () => {
  const HAND = {
    'hand.0.cow': '103',
    'hand.0.what': 'milk-hold',
    'hand.0.words': '<b>clots</b>',
    'hand.0.by': 'JB',
    'hand.1.cow': '104',
    'hand.1.what': 'treatment',
    'hand.1.words': PENICILLIN.toLowerCase(),
    'hand.1.by': 'JB',
    'hand.1.amount': '1',
    'hand.1.unit': 'tube',
    'hand.1.doses': '3',
    'hand.1.hours': '12',
    'hand.1.time': '2026-03-14T16:50',
    'hand.2.cow': '105',
    'hand.2.what': 'group-move',
    'hand.2.words': 'dry',
  };

  test('R-21 lines by hand become entries with what they make of her milk said first', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const more = await desk.send(await open(desk, ref), { ...HAND, step: 'more' }, '/paper');
    expect(recordedAfter(desk, before)).toEqual([]);
    const { read } = await writeUp(desk, more, {
      'hand.3.cow': '106',
      'hand.3.what': 'sort-request',
      'hand.3.words': 'off her feed',
      'hand.4.what': 'note',
      'hand.4.words': 'gate sticks',
    });
    expect(read.html).toContain('&lt;b&gt;clots&lt;/b&gt;');
    expect(read.text).toMatch(/103, Milkers, .*MILK ON HOLD, no end known/);
    expect(read.text).toMatch(/Alerts and doubts that this brings.*104/);
    const entries = recordedAfter(desk, before);
    expect(said(entries).map(({ type, subject, time }) => [type, subject, time])).toEqual([
      ['milk-hold', '103', '2026-03-14T16:40:00Z'],
      ['treatment', '104', '2026-03-14T16:50:00Z'],
      ['group-move', '105', '2026-03-14T16:40:00Z'],
      ['sort-request', '106', '2026-03-14T16:40:00Z'],
      ['sheet-returned', undefined, '2026-03-14T18:30:00Z'],
    ]);
    expect(entries[0]?.data).toEqual({ reason: '<b>clots</b> (JB)' });
    expect(entries[1]?.data).toMatchObject({
      medicine: PENICILLIN,
      givenBy: 'JB',
      course: { dose: 1, of: 3, everyHours: 12 },
    });
    expect(entries[2]?.data).toEqual({ to: 'Dry' });
    expect(entries[4]?.data).toEqual({ ref, note: 'gate sticks' });
  });

  test('R-14 a medicine that is not listed and a cow that is not in the herd are said before saving', async () => {
    const { desk, ref } = await evening();
    const fields = {
      who: 'Jo',
      'hand.0.cow': '999',
      'hand.0.what': 'treatment',
      'hand.0.words': 'Penicilin',
      step: 'read',
    };
    const read = await desk.send(await open(desk, ref), fields, '/paper');
    expect(read.text).toContain('Penicilin is not on the list of medicines');
    expect(read.text).toContain('No cow of the herd is 999');
  });

  test.each([
    [{ 'hand.0.cow': '103' }, 'Say what was written'],
    [{ 'hand.0.what': 'treatment', 'hand.0.words': PENICILLIN }, 'Say which cow'],
    [{ 'hand.0.cow': '10/3', 'hand.0.what': 'milk-hold', 'hand.0.words': 'clots' }, 'is not a cow'],
    [
      { 'hand.0.cow': '103', 'hand.0.what': 'group-move', 'hand.0.words': 'Meadow' },
      'has no group "Meadow"; it has Milkers',
    ],
    [
      { 'hand.0.cow': '103', 'hand.0.what': 'milk-hold', 'hand.0.words': 'clots', 'hand.0.time': 'noon' },
      'is not a date and time',
    ],
    [{ finished: '16:10' }, 'before this milking began, 16:30'],
    [{ finished: '18:45' }, 'still to come'],
    [{ finished: 'late' }, 'is not a time'],
    [{ 'count.0': 'six' }, 'is not a number of cows'],
  ])('%j is refused in a sentence, kept as typed, and saves nothing', async (fields, sentence) => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const answer = await desk.send(await open(desk, ref), { ...fields, 'sort.0': 'yes', step: 'save' }, '/paper');
    expect(answer.status).toBe(400);
    expect(answer.text).toContain(sentence);
    for (const [name, value] of Object.entries(fields)) {
      const control = answer.document.querySelector(`[name="${name}"]`);
      const kept = control?.getAttribute('value') ?? control?.querySelector('option[selected]')?.getAttribute('value');
      expect(kept).toBe(value);
    }
    expect(recordedAfter(desk, before)).toEqual([]);
  });

  test('R-70 a count is of the milking’s start, a finish of its own time, and nothing counted twice', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    const { read } = await writeUp(desk, await open(desk, ref), {
      'count.0': '5',
      'count.all': '7',
      finished: '16:38',
    });
    expect(read.text).toContain('Milkers: 5 head counted, 1 fewer than the book');
    expect(read.text).toContain('Not counted: Fresh, Dry');
    expect(said(recordedAfter(desk, before)).slice(0, 2)).toEqual([
      {
        type: 'head-count',
        subject: undefined,
        time: '2026-03-14T16:30:00Z',
        data: { group: 'Milkers', count: 5, milking: '2026-03-14/afternoon' },
      },
      {
        type: 'milking-finished',
        subject: undefined,
        time: '2026-03-14T16:38:00Z',
        data: { milking: '2026-03-14/afternoon' },
      },
    ]);
    const page = await open(desk, ref);
    expect(page.text).toContain('in the book already: counted 5');
    const twice = await desk.send(page, { 'count.0': '6', finished: '16:39', 'sort.0': 'yes', step: 'read' }, '/paper');
    expect(twice.text).toContain('Milkers: in the book already: counted 5');
    expect(twice.text).not.toContain('6 head counted');
  });

  test('R-04 a dose of a milking that was finished sooner than planned is timed within it', async () => {
    const { desk, ref } = await evening();
    const before = desk.book.head().position;
    await writeUp(desk, await open(desk, ref), { who: 'Jo', 'dose.0': 'yes', finished: '16:36' });
    expect(said(recordedAfter(desk, before))[0]).toMatchObject({ type: 'treatment', time: '2026-03-14T16:36:00Z' });
  });

  test('R-50 R-44 moves and dry-offs are ticked with their group, product and sealant; boxes without an entry go into the note', async () => {
    const setUp = {
      ...SET_UP,
      freshPenHours: 48,
      freshHold: { milkings: 1 },
      dryOff: { product: 'Cloxacillin, dry cow' },
    };
    const desk = await aDesk([
      ...farmEntries().map((entry) => (entry.id === 'set-up' ? { ...entry, data: setUp } : entry)),
      {
        type: 'medicine-listed',
        time: EARLY,
        data: {
          name: 'Cloxacillin, dry cow',
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
      { type: 'pregnancy-check', subject: '104', time: EARLY, data: { result: 'pregnant', dueOn: '2026-05-10' } },
    ]);
    const ref = await issued(desk, '2026-03-14T18:30:00Z');
    const before = desk.book.head().position;
    const page = await open(desk, ref);
    const { read } = await writeUp(desk, page, {
      who: 'Jo',
      'out.0': 'yes',
      'dry.0': 'yes',
      'dry.0.quarters': ['left-front', 'right-front', 'left-hind'],
      'dry.0.sealant-given': 'yes',
      'pen.0.temperature': '39.1',
    });
    expect(read.text).toContain('104: her dry-off band was not ticked as put on');
    expect(said(recordedAfter(desk, before))).toEqual([
      {
        type: 'dry-off',
        subject: '104',
        time: '2026-03-14T16:50:00Z',
        data: { product: 'Cloxacillin, dry cow', group: 'Dry' },
      },
      {
        type: 'treatment',
        subject: '104',
        time: '2026-03-14T16:50:01Z',
        data: { medicine: 'Bismuth, sealant', givenBy: 'Jo' },
      },
      { type: 'group-move', subject: '103', time: '2026-03-14T16:50:00Z', data: { to: 'Milkers' } },
      {
        type: 'sheet-returned',
        subject: undefined,
        time: '2026-03-14T18:30:00Z',
        data: {
          ref,
          by: 'Jo',
          note: expect.stringMatching(
            /104 dry-off, quarters ticked: left front, right front, left hind; 103 temperature 39.1/,
          ),
        },
      },
    ]);
    const again = await open(desk, ref);
    expect(again.text).toContain('in the book already: dried off');
    expect(again.text).toContain('in the book already: moved to Milkers');
  });

  test('a time that the clocks skip is refused, and one that they say twice is the later of the two', async () => {
    const dublin = (entry: Record<string, unknown>) =>
      entry.id === 'set-up' ? { ...entry, data: { ...SET_UP, timeZone: 'Europe/Dublin' } } : entry;
    const spring = await aDesk(farmEntries().map(dublin));
    spring.clock.set(at('2026-03-28T23:00:00Z'));
    const ref = await issued(spring, '2026-03-29T08:00:00Z');
    const hold = { 'hand.0.cow': '103', 'hand.0.what': 'milk-hold', 'hand.0.words': 'clots', step: 'read' };
    const skipped = await spring.send(
      await open(spring, ref),
      { ...hold, 'hand.0.time': '2026-03-29T01:30' },
      '/paper',
    );
    expect(skipped.text).toContain('The clocks skip that time');

    const fall = await aDesk(farmEntries().map(dublin));
    fall.clock.set(at('2026-10-24T22:00:00Z'));
    const autumn = { ...fall, ...(await fall.as('manager')) };
    const later = await issued(autumn, '2026-10-25T08:00:00Z');
    const before = autumn.book.head().position;
    await writeUp(autumn, await open(autumn, later), { ...hold, 'hand.0.time': '2026-10-25T01:30' });
    expect(said(recordedAfter(autumn, before))[0]).toMatchObject({ type: 'milk-hold', time: '2026-10-25T01:30:00Z' });
  });
});
