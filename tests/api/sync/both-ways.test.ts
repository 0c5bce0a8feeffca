/** Two books of one farm exchange what they have, and then print the same. */
import { expect, test } from 'vitest';
import { openBook } from '../../../events/book.ts';
import { readRelayed } from '../../../events/relay.ts';
import { at, handClock, newPath, opened, rehearsalClock } from '../../events/a-book.ts';
import { aServer, BATCH, doseOf, farmEntries, START, serveBook, tell } from '../server/a-server.ts';
import { aLaptop, expectSame, refusalOf, sayDoses, setOf, syncWith, viewsOf } from './two-books.ts';

test('a new book takes the farm by its first sync, and both hold the same set', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  expect(book.farmId).toBeNull();
  const synced = await syncWith(book, server);
  expect(book.farmId).toBe(server.book.farmId);
  expect(synced).toMatchObject({ adopted: true, same: true, pulled: { recorded: 8 }, pushed: { recorded: 0 } });
  expectSame(book, server.book);
});

test('a new server takes the farm of the first book that comes', async () => {
  const clock = handClock(START);
  const server = await serveBook(opened(newPath(), { clock }), clock);
  const { book } = aLaptop();
  tell(book, START, farmEntries());
  expect(await syncWith(book, server)).toMatchObject({ same: true, pushed: { recorded: 8 } });
  expect(server.book.farmId).toBe(book.farmId);
  expectSame(book, server.book);
});

test('what each said alone is in both afterwards, and a second sync moves nothing', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  await syncWith(book, server);
  sayDoses(book, 'barn', 3);
  sayDoses(server.book, 'office', 2);
  expect(await syncWith(book, server)).toMatchObject({
    same: true,
    pulled: { recorded: 2, aside: 0 },
    pushed: { recorded: 3, aside: 0 },
  });
  expectSame(book, server.book);
  const before = server.book.head();
  const again = await syncWith(book, server);
  expect(again).toMatchObject({ pulled: { recorded: 0, known: 0 }, pushed: { recorded: 0, known: 0 } });
  expect(server.book.head()).toEqual(before);
});

test('after a month offline on both sides, over several pages each way, both hold the same set', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  await syncWith(book, server);
  sayDoses(book, 'barn', 2_300);
  sayDoses(server.book, 'office', 3_100);
  const told: [string, number, number][] = [];
  const synced = await syncWith(book, server, { tell: (...each) => told.push(each) });
  expect(synced).toMatchObject({ same: true, pulled: { recorded: 3_100 }, pushed: { recorded: 2_300 } });
  expect(told.filter(([what]) => what === 'pull').map(([, done]) => done)).toEqual([1_000, 2_000, 3_000, 3_100]);
  expect(told.filter(([what]) => what === 'push').at(-1)).toEqual(['push', 5_400, 5_400]);
  expect(setOf(book)).toEqual(setOf(server.book));
  expect([book.verify().ok, server.book.verify().ok]).toEqual([true, true]);
});

test('a log of more than 20,000 entries is proved several pages at a time', async () => {
  const server = await aServer();
  for (let part = 0; part < 21; part += 1) sayDoses(server.book, `office-${part}`, 1_000);
  const { book } = aLaptop();
  const told: number[] = [];
  await syncWith(book, server, { tell: (_, done) => told.push(done) });
  expect(told.slice(0, 2)).toEqual([2_000, 4_000]);
  expect(book.head().position).toBe(server.book.head().position);
  expect(setOf(book)).toEqual(setOf(server.book));
});

test('what came from a book is not sent back to it; what came from a third book is passed on once', async () => {
  const server = await aServer();
  const far = await aServer({}, []);
  const { book } = aLaptop();
  const nothing = { recorded: 0, known: 0 };
  expect(await syncWith(book, server)).toMatchObject({ pulled: { recorded: 8 }, pushed: nothing });
  const first = await syncWith(book, far);
  expect(first.pushed).toMatchObject({ recorded: 8, known: 0 });
  sayDoses(far.book, 'far', 5);
  expect(await syncWith(book, far)).toMatchObject({ pulled: { recorded: 5 }, pushed: nothing });
  const on = await syncWith(book, server);
  expect(on.pushed).toMatchObject({ recorded: 5, known: 0 });
  for (const other of [server, far, server]) {
    expect((await syncWith(book, other)).pushed).toMatchObject(nothing);
  }
  expectSame(book, server.book, far.book);
  expect(JSON.parse(book.rows(book.head().position - 1, 1)[0]?.entry ?? '')).toMatchObject({ via: far.book.bookId });
});

test('R-27 a kind, a field and a time that this version does not know travel through it unharmed, and hold', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  await syncWith(book, server);
  const strange = [
    {
      id: 'new-kind',
      type: 'collar-alarm',
      source: 'gate',
      subject: '101',
      time: '2026-03-14T10:00:00Z',
      data: { a: [1.5e-7] },
    },
    {
      ...doseOf('102', 'new-field'),
      specversion: '1.0',
      source: 'gate',
      traceparent: '00-1',
      data: { medicine: 'x', dose: { deep: null } },
    },
    { ...doseOf('103', 'odd-time', 'yesterday, after milking'), specversion: '1.0', source: 'gate' },
    { ...doseOf('104', 'naive-time', '2026-03-14T10:00:00'), specversion: '1.0', source: 'gate' },
    { id: 'no-cow', type: 'weather', data: 'rain' },
  ];
  server.book.relay(strange.map(readRelayed), 'gate');
  await syncWith(book, server);
  const third = await aServer({}, []);
  await syncWith(book, third);
  expectSame(server.book, book, third.book);
  const held = viewsOf(third.book).sheets['milk-hold'].held.filter(({ until }) => until === null);
  expect(held.map(({ cow }) => cow)).toEqual(['101', '102', '103', '104']);
  expect(viewsOf(third.book).sheets['milk-hold'].unplaced).toHaveLength(1);
  const stored = setOf(third.book).find((each) => each.includes('collar-alarm'));
  expect(stored).toContain('"a":[1.5e-7]');
});

test('R-27 one id that two books gave to two entries: both are kept everywhere, both hold, and a doubt says so', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  await syncWith(book, server);
  tell(server.book, START, [doseOf('101', 'dose-1')]);
  tell(book, START, [doseOf('102', 'dose-1')]);
  await syncWith(book, server);
  expectSame(book, server.book);
  expect(book.find('dose-1')).toHaveLength(2);
  expect(viewsOf(book).sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['101', '102']);
  expect(viewsOf(server.book).doubts.map(({ key }) => key)).toContain('two-contents:dose-1');
});

test('R-70 two devices that put a cow in two groups at one time: both stay, the fold order decides, a doubt says so', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  await syncWith(book, server);
  const moved = (id: string, to: string) => ({
    id,
    type: 'group-move',
    subject: '105',
    time: '2026-03-14T09:00:00Z',
    data: { to },
  });
  tell(server.book, START, [moved('b-move', 'Fresh')]);
  tell(book, START, [moved('a-move', 'Dry')]);
  expect(await syncWith(book, server)).toMatchObject({ same: true, pulled: { recorded: 1 }, pushed: { recorded: 1 } });
  expectSame(book, server.book);
  for (const each of [book, server.book]) {
    const views = viewsOf(each);
    const group = views.sheets.counts.groups.find((row) => row.group === 'Fresh');
    expect(group?.head).toBe(1);
    const doubt = views.doubts.find(({ because }) => because.key === 'doubt.two-groups');
    expect(doubt?.because).toMatchObject({
      values: { cow: '105', groups: ['Dry', 'Fresh'] },
      entries: ['a-move', 'b-move'],
    });
  }
});

test('a strike goes over before or after what it strikes, and what was struck counts in neither book', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  sayDoses(server.book, 'office', 1);
  await syncWith(book, server);
  tell(book, START, [
    {
      id: 'strike',
      type: 'entry-struck',
      time: '2026-03-14T11:30:00Z',
      data: { entry: 'office-0', reason: 'wrong cow', instead: 'nothing' },
    },
  ]);
  await syncWith(book, server);
  expectSame(book, server.book);
  expect(viewsOf(server.book).sheets['milk-hold'].held).toEqual([]);
});

test('an issued set and its position go to the other book, which keeps its own name and order', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  const issued = await server.ask('/milkings/2026-03-14/afternoon/issue', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
  });
  expect(issued.status).toBeLessThan(300);
  await syncWith(book, server);
  expectSame(book, server.book);
  expect(book.read().entries.find(({ type }) => type === 'sheet-issued')?.data).toMatchObject({
    book: server.book.bookId,
  });
});

test('the book of another farm is refused with a sentence, and neither takes anything', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  tell(book, START, farmEntries());
  const before = [book.head(), server.book.head()];
  expect(await refusalOf(syncWith(book, server))).toMatch(/another farm .*nothing was taken or sent/);
  expect([book.head(), server.book.head()]).toEqual(before);
});

test('two books without a farm, one book with itself, a rehearsal with a real book: each is refused with a sentence', async () => {
  const empty = await aServer({}, []);
  expect(await refusalOf(syncWith(aLaptop().book, empty))).toMatch(/Neither book has a farm yet/);
  expect(await refusalOf(syncWith(empty.book, empty))).toMatch(/this very book, or a copy/);
  const rehearsal = openBook(newPath(), { clock: rehearsalClock, create: true });
  const server = await aServer();
  expect(await refusalOf(syncWith(rehearsal, server))).toMatch(/real and this one is a rehearsal/);
  rehearsal.close();
});

test.each([
  ['an hour ahead', '2026-03-14T13:00:00Z', 3_600],
  ['an hour behind', '2026-03-14T11:00:00Z', -3_600],
  ['a year ahead', '2027-03-14T12:00:00Z', 365 * 86_400],
  ['a year behind', '2025-03-14T12:00:00Z', -365 * 86_400],
])(
  'a book whose clock is %s is told so; nothing is lost and the other book keeps its own time',
  async (_, now, skew) => {
    const server = await aServer();
    const laptop = aLaptop();
    await syncWith(laptop.book, server);
    laptop.clock.set(at(now));
    const said = { ...doseOf('101', 'off-clock', now) };
    expect(tell(laptop.book, at(now), [said])[0]?.outcome).toBe('recorded');
    sayDoses(server.book, 'office', 1);
    const synced = await syncWith(laptop.book, server);
    expect(synced).toMatchObject({ same: true, skewSeconds: skew, pushed: { recorded: 1, ahead: skew > 0 ? 1 : 0 } });
    expect(setOf(laptop.book)).toEqual(setOf(server.book));
    sayDoses(server.book, 'later', 1);
    const [last] = server.book.rows(server.book.head().position - 1, 1);
    expect(JSON.parse(last?.entry ?? '')).toMatchObject({ recordedtime: '2026-03-14T12:00:00Z' });
    laptop.clock.set(START);
    expect(await syncWith(laptop.book, server)).toMatchObject({ same: true, skewSeconds: 0, pulled: { recorded: 1 } });
    expect(viewsOf(laptop.book)).toEqual(viewsOf(server.book));
    expect([laptop.book.verify().ok, server.book.verify().ok]).toEqual([true, true]);
  },
);

test('a device that pushes the same entry that came by sync adds nothing', async () => {
  const server = await aServer();
  const { book } = aLaptop();
  await syncWith(book, server);
  sayDoses(book, 'barn', 1);
  await syncWith(book, server);
  const { position } = server.book.head();
  const [row] = book.find('barn-0');
  const { sequence: _, recordedtime: __, via: ___, ...said } = JSON.parse(row?.entry ?? '') as Record<string, unknown>;
  const answer = await server.ask('/sync/push', {
    method: 'POST',
    body: JSON.stringify([said]),
    headers: { 'content-type': BATCH },
  });
  expect(await answer.json()).toMatchObject({ receipts: [{ outcome: 'already-known' }] });
  expect(server.book.head().position).toBe(position);
});
