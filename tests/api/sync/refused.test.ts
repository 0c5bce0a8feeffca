/** What was refused at a door of one book goes to the other, both ways, and holds there as here. */
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { replay } from '../../../api/replay.ts';
import { carryingsOf, MOST_CARRIED } from '../../../api/server/refusals.ts';
import { tonight } from '../../../api/tonight.ts';
import type { Book } from '../../../events/book.ts';
import { readLine } from '../../../events/door.ts';
import { readRefusal } from '../../../events/refused-elsewhere.ts';
import type { Instant } from '../../../shared/instant.ts';
import { at, bare } from '../../events/a-book.ts';
import { TWO_ALIKE } from '../../events/two-alike.ts';
import { type AServer, aServer, doseOf, farmEntries, START, tell } from '../server/a-server.ts';
import { aProxy, type Mischief, type Passing } from './a-proxy.ts';
import { aLaptop, expectSame, refusalOf, sayDoses, syncWith, viewsOf } from './two-books.ts';

/** A dose with a misspelt field: refused at every door. */
const misspelt = (cow: string, note = '') => ({ ...doseOf(cow, `bad-${cow}${note}`), data: { medicne: 'x' } });
const refuse = (book: Book, ...cows: readonly string[]): string[] =>
  tell(
    book,
    START,
    cows.map((cow) => misspelt(cow)),
  ).map(({ outcome, key = '' }) => {
    expect(outcome).toBe('refused');
    return key;
  });

const settle = (book: Book, about: string, id: string): void => {
  const settled = { type: 'settled', id, time: '2026-03-14T11:30:00Z', data: { about, how: 'entered again' } };
  expect(tell(book, START, [settled])[0]?.outcome).toBe('recorded');
};

const heldIn = (book: Book): string[] => viewsOf(book).sheets['milk-hold'].held.map(({ cow }) => cow);
const textsIn = (book: Book): string[] =>
  book.refusedBehind(0, { rows: 100_000, characters: 1e9 })?.refused.map(({ text }) => text) ?? [];

const NOTHING = { travels: true, came: 0, cameCows: [], went: 0, wentCows: [] };
const isAside = ({ path }: Passing): boolean => path.startsWith('/sync/set-aside');

const aPair = async () => {
  const server = await aServer();
  const { book, clock } = aLaptop();
  await syncWith(book, server);
  return { server, book, clock };
};

describe('what was refused', () => {
  test('R-27 goes both ways, holds its cows in both books, and is not sent to and fro', async () => {
    const { server, book } = await aPair();
    refuse(server.book, '101', '102');
    refuse(book, '103');
    expect(heldIn(book)).toEqual(['103']);
    expect((await syncWith(book, server)).refused).toEqual({
      travels: true,
      came: 2,
      cameCows: ['101', '102'],
      went: 1,
      wentCows: ['103'],
    });
    for (const each of [book, server.book]) expect(heldIn(each)).toEqual(['101', '102', '103']);
    expectSame(book, server.book);
    const before = [book.changes(), server.book.changes()];
    for (let round = 0; round < 3; round += 1) expect((await syncWith(book, server)).refused).toEqual(NOTHING);
    expect([book.changes(), server.book.changes()]).toEqual(before);
    expect(textsIn(book).toSorted()).toEqual(textsIn(server.book).toSorted());
  });

  test('R-27 names the peer it came through; when it was set aside is each book’s own', async () => {
    const { server, book, clock } = await aPair();
    const [there = ''] = refuse(server.book, '101');
    const [here = ''] = refuse(book, '102');
    clock.set(at('2026-03-14T13:00:00Z'));
    server.clock.set(at('2026-03-14T14:00:00Z'));
    await syncWith(book, server);
    expect(book.setAside(there)).toMatchObject({ door: server.book.bookId, recordedAt: at('2026-03-14T13:00:00Z') });
    expect(server.book.setAside(here)).toMatchObject({ door: 'the book', recordedAt: at('2026-03-14T14:00:00Z') });
    expect(server.book.setAside(there)).toMatchObject({ door: null, recordedAt: START });
  });

  test('R-27 goes to a new book with its first sync, and from a first book to a server that has no farm yet', async () => {
    const server = await aServer();
    refuse(server.book, '104');
    const { book } = aLaptop();
    expect((await syncWith(book, server)).refused).toMatchObject({ came: 1, cameCows: ['104'], went: 0 });
    const empty = await aServer({}, []);
    expect((await syncWith(book, empty)).refused).toMatchObject({ came: 0, went: 1, wentCows: ['104'] });
    expectSame(book, server.book, empty.book);
  });

  test('R-27 goes round a ring of three books once, and then rests', async () => {
    const servers = [await aServer(), await aServer({}, []), await aServer({}, [])];
    const pass = async (from: number) => {
      const [one, next] = [servers[from], servers[(from + 1) % 3]];
      if (one === undefined || next === undefined) throw new Error('no such book');
      return (await syncWith(one.book, next)).refused;
    };
    await pass(0);
    await pass(1);
    for (const [index, { book }] of servers.entries()) refuse(book, `10${index + 1}`, '106');
    const moved: number[] = [];
    for (let step = 0; step < 9; step += 1) {
      const { came, went } = await pass(step % 3);
      moved.push(came + went);
    }
    expect(moved.slice(4)).toEqual([0, 0, 0, 0, 0]);
    expectSame(...servers.map(({ book }) => book));
    for (const { book } of servers) {
      expect(heldIn(book)).toEqual(['101', '102', '103', '106']);
      expect(textsIn(book)).toHaveLength(4);
    }
  });

  test('R-27 is settled in both books by a person at either, whether it was there first or the word was', async () => {
    const { server, book } = await aPair();
    const [first = ''] = refuse(server.book, '101');
    const [second = ''] = refuse(book, '102');
    await syncWith(book, server);
    settle(book, first, 'settled-1');
    settle(server.book, second, 'settled-2');
    const [third = ''] = refuse(book, '103');
    settle(book, third, 'settled-3');
    await syncWith(book, server);
    for (const each of [book, server.book]) expect(heldIn(each)).toEqual([]);
    expectSame(book, server.book);
    expect(textsIn(server.book)).toHaveLength(3);
  });

  test('R-27 where two lines were made to have one key, what was settled of each in its book is settled of neither', async () => {
    const { server, book } = await aPair();
    const settings = { source: 'office', author: 'Marta', now: START };
    const places = [server.book, book] as const;
    const keys = places.map((each, index) => {
      const [receipt] = each.record([readLine(TWO_ALIKE[index] ?? '', settings)]);
      settle(each, receipt?.key ?? '', `settled-${index}`);
      expect(heldIn(each)).toEqual([]);
      return receipt?.key;
    });
    expect(keys[0]).toBe(keys[1]);
    await syncWith(book, server);
    for (const each of places) expect(heldIn(each)).toEqual(['102']);
    expectSame(...places);
    // Settled anew, each by its own key, in whichever book.
    for (const [index, { key }] of server.book.read().asides.entries()) settle(server.book, key, `anew-${index}`);
    await syncWith(book, server);
    for (const each of places) expect(heldIn(each)).toEqual([]);
    expectSame(...places);
  });

  test('R-27 where two books refuse one line for different reasons, whoever either names is held in both', async () => {
    const { server, book } = await aPair();
    tell(server.book, START, [doseOf('101', 'dose-1')]);
    await syncWith(book, server);
    tell(server.book, START, [doseOf('104', 'dose-2')]);
    const text = JSON.stringify({ ...doseOf('102', 'dose-2'), source: 'office', author: 'Marta' });
    const settings = { source: 'office', author: 'Marta', now: START };
    const [there] = server.book.record([readLine(text, settings)]);
    expect(there?.problem).toContain('is taken by another entry (position 10)');
    // The laptop refuses the very same text because its clock, which is behind, makes it lie ahead.
    const canonical = server.book.setAside(there?.key ?? '')?.text ?? '';
    const [here] = book.record([readLine(canonical, { ...settings, now: at('2026-03-13T12:00:00Z') })]);
    expect(here).toMatchObject({ outcome: 'refused', pointer: '/time', key: there?.key });
    await syncWith(book, server);
    expectSame(book, server.book);
    for (const each of [book, server.book]) expect(heldIn(each)).toEqual(['101', '102', '104']);
    expect((await syncWith(book, server)).refused).toEqual(NOTHING);
  });
});

describe('on the way', () => {
  test('R-27 cut off at any request and begun again, all of it comes to both and nothing twice', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    const lines = (prefix: string, count: number) =>
      Array.from({ length: count }, (_, n) => misspelt(`10${1 + (n % 6)}`, `-${prefix}-${n}`));
    tell(book, START, lines('barn', 1_300));
    tell(server.book, START, lines('office', 2_100));
    let done = false;
    for (let cuts = 0; !done && cuts < 40; cuts += 1) {
      const begin = proxy.seen.length;
      proxy.play((_, index) => (index - begin < cuts ? 'pass' : cuts % 2 === 0 ? 'lose' : 'lose-answer'));
      const patience = { tries: 1, firstWait: 1, longestWait: 1, silence: 5_000 };
      done = await syncWith(book, server, { url: proxy.url, patience }).then(
        () => true,
        () => false,
      );
    }
    expect(done).toBe(true);
    expect(textsIn(book).toSorted()).toEqual(textsIn(server.book).toSorted());
    expect(textsIn(book)).toHaveLength(3_400);
    expectSame(book, server.book);
  });

  test('R-27 of 15,000 refused lines all come, page by page, and go back to nobody', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    for (let part = 0; part < 15; part += 1) {
      const texts = Array.from({ length: 1_000 }, (_, n) => `{"subject":"${100 + (n % 6)}","line":${part * 1_000 + n}`);
      server.book.record(texts.map((text) => readLine(text, { source: 'x', author: 'x', now: START })));
    }
    expect((await syncWith(book, server, { url: proxy.url })).refused).toMatchObject({ came: 15_000, went: 0 });
    const asked = proxy.seen.filter(isAside);
    expect(asked.map(({ method }) => method)).toEqual(Array(15).fill('GET'));
    const third = await aServer({}, []);
    const way = await aProxy(third.url);
    expect((await syncWith(book, third, { url: way.url })).refused).toMatchObject({ came: 0, went: 15_000 });
    const bodies = way.seen.filter((each) => isAside(each) && each.method === 'POST').map(({ body }) => body.length);
    expect(bodies).toHaveLength(30);
    expect(Math.max(...bodies)).toBeLessThan(200_000);
    expect(third.book.changes().split(' ')[2]).toHaveLength(64);
    expect(textsIn(third.book)).toEqual(textsIn(server.book));
    expect((await syncWith(book, third, { url: way.url })).refused).toEqual(NOTHING);
  }, 60_000);

  test('R-27 what is refused there while this book sends is read in the same sync, and nothing is passed over', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    tell(
      book,
      START,
      Array.from({ length: 1_200 }, (_, n) => misspelt('101', `-${n}`)),
    );
    let said = 0;
    proxy.play((passing) => {
      if (isAside(passing) && passing.method === 'POST') refuse(server.book, `10${2 + said++}`);
      return 'pass';
    });
    expect((await syncWith(book, server, { url: proxy.url })).refused).toMatchObject({ came: 3, went: 1_200 });
    expect(said).toBe(3);
    expectSame(book, server.book);
    const before = proxy.seen.length;
    proxy.play(() => 'pass');
    expect((await syncWith(book, server, { url: proxy.url })).refused).toEqual(NOTHING);
    expect(proxy.seen.slice(before).filter(isAside)).toHaveLength(1);
  });

  test('R-27 where the answer to what was sent is lost, it goes again, and counts as sent only then', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    refuse(book, '101');
    proxy.play((passing) => (isAside(passing) && passing.method === 'POST' ? 'lose-answer' : 'pass'));
    expect(await refusalOf(syncWith(book, server, { url: proxy.url }))).toMatch(/broke off/);
    expect(book.peers.of(server.book.bookId)?.refused.sent).toBe(0);
    proxy.play(() => 'pass');
    expect((await syncWith(book, server, { url: proxy.url })).refused).toMatchObject({ came: 0, went: 0 });
    expect(book.peers.of(server.book.bookId)?.refused).toMatchObject({ read: 1, sent: 1 });
    expectSame(book, server.book);
  });

  test('a proxy that takes only small bodies gets small ones', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    tell(
      book,
      START,
      Array.from({ length: 300 }, (_, n) => misspelt('101', `-${n}`)),
    );
    const tooLarge = { answer: { status: 413, headers: { 'content-type': 'text/html' }, body: 'too large' } };
    proxy.play((passing) => (passing.body.length > 10_000 ? tooLarge : 'pass'));
    expect((await syncWith(book, server, { url: proxy.url })).refused).toMatchObject({ went: 300 });
  });

  test('R-27 a book of an older version is synced with all the same; once it is a newer one, all of it goes', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    refuse(server.book, '101');
    refuse(book, '102');
    sayDoses(book, 'barn', 2);
    const older: Mischief = { answer: { status: 404, headers: { 'content-type': 'text/plain' }, body: 'not here' } };
    proxy.play((passing) => (isAside(passing) ? older : 'pass'));
    const synced = await syncWith(book, server, { url: proxy.url });
    expect(synced).toMatchObject({ same: true, pushed: { recorded: 2 }, refused: { ...NOTHING, travels: false } });
    proxy.play(() => 'pass');
    expect((await syncWith(book, server, { url: proxy.url })).refused).toMatchObject({ came: 1, went: 1 });
    expectSame(book, server.book);
  });

  test('R-27 what the other book lost of it when it was put back is sent again, and what it has since is read', async () => {
    const { server, book } = await aPair();
    refuse(server.book, '101');
    refuse(book, '102');
    await syncWith(book, server);
    expect(textsIn(server.book)).toHaveLength(2);
    // Put back to before it refused anything; nothing in its log tells of that. Then it refuses as many other lines.
    const file = bare(server.book.path);
    const triggers = file
      .prepare<[], { name: string; sql: string }>(
        `select name, sql from sqlite_schema where tbl_name = 'set_aside' and type = 'trigger'`,
      )
      .all();
    for (const { name } of triggers) file.exec(`drop trigger ${name}`);
    file.exec(`delete from set_aside; update head set chain = ''`);
    for (const { sql } of triggers) file.exec(sql);
    expect((await syncWith(book, server)).refused).toMatchObject({ came: 0, went: 2 });
    for (const { name } of triggers) file.exec(`drop trigger ${name}`);
    file.exec(`delete from set_aside; update head set chain = ''`);
    for (const { sql } of triggers) file.exec(sql);
    refuse(server.book, '103', '104', '105');
    expect((await syncWith(book, server)).refused).toMatchObject({ came: 3, went: 2 });
    expectSame(book, server.book);
    expect(heldIn(book)).toEqual(['101', '102', '103', '104', '105']);
    expect((await syncWith(book, server)).refused).toEqual(NOTHING);
  });
});

describe('from a book that is not to be trusted', () => {
  const changed = async (change: (page: Record<string, unknown>) => unknown) => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    refuse(server.book, '101', '102');
    sayDoses(server.book, 'office', 1);
    const sly = (text: string) => JSON.stringify(change(JSON.parse(text) as Record<string, unknown>));
    proxy.play((passing) => (isAside(passing) && passing.method === 'GET' ? { change: sly } : 'pass'));
    return { server, book, proxy, again: () => syncWith(book, server, { url: proxy.url }) };
  };

  test('R-27 a refusal that is broken is set aside itself and holds whom it names; the others come as they are', async () => {
    const { server, book, proxy, again } = await changed((page) => ({
      ...page,
      refused: [{ problem: 7, cows: '103' }, ...z.array(z.unknown()).parse(page.refused).slice(1)],
    }));
    expect((await again()).refused).toMatchObject({ came: 2, cameCows: ['102', '103'] });
    expect(viewsOf(book).doubts.map(({ because }) => because.values)).toContainEqual(
      expect.objectContaining({ problem: expect.stringMatching(/can't be read as one/), cows: ['103'] }),
    );
    // It goes back there, where it holds 103 too. What it was made from is read where nothing stands between.
    proxy.play(() => 'pass');
    expect(heldIn(server.book)).toEqual(['101', '102', '103']);
    expect(book.verify().ok).toBe(true);
  });

  test.each<[string, (page: Record<string, unknown>) => unknown]>([
    ['counts wrong', (page) => ({ ...page, number: 9 })],
    ['has more but gives none', (page) => ({ ...page, refused: [], number: 0, last: 5 })],
    ['never begins', (page) => ({ ...page, before: 'f'.repeat(64) })],
  ])(
    'R-27 one that %s is told so; its entries are kept, and what was refused here is held there',
    async (_, change) => {
      const { server, book, again } = await changed(change);
      refuse(book, '106');
      const refusal = await refusalOf(again());
      expect(refusal).toMatch(/does not tell in order what was refused there/);
      expect(refusal).toMatch(/Before that, 1 came and 0 went, and those are safe/);
      expect(textsIn(book)).toHaveLength(1);
      expect(heldIn(server.book)).toContain('106');
    },
  );

  test('one that answers under another name is not followed', async () => {
    const { book, again } = await changed((page) => ({ ...page, book: 'another' }));
    expect(await refusalOf(again())).toMatch(/Another book answers than a moment ago/);
    expect(textsIn(book)).toEqual([]);
  });

  test('one that never ends is stopped, with a sentence, before the disk is full', async () => {
    const { server, book } = await aPair();
    const proxy = await aProxy(server.url);
    proxy.play((passing) => {
      if (!isAside(passing)) return 'pass';
      const after = Number(new URL(passing.path, server.url).searchParams.get('after'));
      const refused = Array.from({ length: 1_000 }, (_, n) => ({
        text: `${after + n}`,
        problem: 'x',
        cows: [],
        mentions: [],
      }));
      const page = {
        book: server.book.bookId,
        before: after === 0 ? '' : 'c',
        refused,
        number: after + 1_000,
        chain: 'c',
        last: 1e12,
      };
      return { answer: { status: 200, headers: { 'content-type': 'application/json' }, body: JSON.stringify(page) } };
    });
    expect(await refusalOf(syncWith(book, server, { url: proxy.url }))).toMatch(
      /passed on 50,000 refused lines and has more/,
    );
    expect(book.lastRefused().number).toBe(50_000);
  }, 120_000);

  test('a device of a book that fills this one with refusals waits; a month of an honest farm does not', () => {
    let now = 0;
    const carryings = carryingsOf(() => now);
    const lines = (count: number, length = 300) => Array<number>(count).fill(length);
    carryings.count('honest', lines(15_000));
    carryings.check('honest');
    for (let each = 0; each < MOST_CARRIED; each += 1_000) {
      carryings.check('broken');
      carryings.count('broken', lines(1_000));
    }
    expect(() => carryings.check('broken')).toThrow(/no more of it is taken for now.*its entries are taken as ever/);
    carryings.check('honest');
    carryings.count('endless', lines(140, 1_000_000));
    expect(() => carryings.check('endless')).toThrow(/sync again later/);
    now += 3_600_000;
    carryings.check('broken');
    carryings.check('endless');
  });
});

describe('over HTTP', () => {
  const post = (server: AServer, body: string, headers: Record<string, string> = {}, as = 'book') =>
    server.ask('/sync/set-aside', {
      as,
      method: 'POST',
      body,
      headers: {
        'content-type': 'application/json',
        'byrebook-farm': server.book.farmId ?? '',
        'byrebook-book': 'the-laptop',
        ...headers,
      },
    });

  test('only a book may ask for it or pass it on', async () => {
    const server = await aServer();
    for (const as of ['manager', 'crew', 'record-keeper', 'machine']) {
      expect((await post(server, '[]', {}, as)).status).toBe(403);
      expect((await server.ask('/sync/set-aside', { as })).status).toBe(403);
    }
    expect((await server.ask('/sync/set-aside', { as: null })).status).toBe(401);
  });

  test.each<[string, number, string, Record<string, string>]>([
    ['another type', 415, '[]', { 'content-type': 'text/plain' }],
    ['no JSON', 400, '[', {}],
    ['no list', 400, '{}', {}],
    ['more than a thousand', 413, JSON.stringify(Array(1_001).fill({})), {}],
    ['another farm', 409, '[{}]', { 'byrebook-farm': 'another' }],
    ['no farm', 400, '[{}]', { 'byrebook-farm': '' }],
  ])('%s is answered with a problem, and nothing is kept', async (_, status, body, headers) => {
    const server = await aServer();
    const answer = await post(server, body, headers);
    expect([answer.status, answer.headers.get('content-type')]).toEqual([status, 'application/problem+json']);
    expect(server.book.hasSetAside()).toBe(false);
  });

  test('behind the end there is no page but a problem that says so', async () => {
    const server = await aServer();
    const answer = await server.ask('/sync/set-aside?after=3', { as: 'book' });
    expect([answer.status, await answer.json()]).toEqual([
      409,
      expect.objectContaining({
        type: '/problems/cannot-answer',
        detail: expect.stringContaining('read all of it again'),
      }),
    ]);
  });

  test('a broken one and a good one in one body are both set aside', async () => {
    const server = await aServer();
    const good = readRefusal({ text: 'x', problem: 'y', cows: ['101'], mentions: [] });
    const answer = await post(server, JSON.stringify([{ cows: ['102'] }, good, good]));
    expect(await answer.json()).toMatchObject({
      book: server.book.bookId,
      number: 2,
      receipts: [{ outcome: 'set-aside' }, { outcome: 'set-aside' }, { outcome: 'already-known' }],
    });
    expect(heldIn(server.book)).toEqual(['101', '102']);
  });
});

describe('a refusal that came by sync', () => {
  const AFTERNOON = '2026-03-14/afternoon';
  const issue = async (server: AServer) => {
    const answer = await server.ask(`/milkings/${AFTERNOON}/issue`, { method: 'POST' });
    return z.object({ ref: z.string() }).parse(await answer.json()).ref;
  };
  const alerts = (book: Book, now: Instant) =>
    tonight(book, { milking: AFTERNOON, asOf: now }).views.alerts.map(({ because }) => [because.rule, because.values]);

  test.each([
    ['before the milking', '2026-03-14T14:00:00Z'],
    ['inside the milking', '2026-03-14T16:45:00Z'],
    ['after the milking', '2026-03-14T19:45:00Z'],
  ])('R-31 is late news for sheets that were issued, %s, as one refused here is', async (_, text) => {
    const later = at(text);
    const [came, own] = [await aServer(), await aServer()];
    const { book: laptop, clock } = aLaptop();
    await syncWith(laptop, came);
    for (const { clock: each } of [came, own, { clock }]) each.set(at('2026-03-14T13:00:00Z'));
    await issue(came);
    await issue(own);
    expect(alerts(came.book, at('2026-03-14T13:30:00Z'))).toEqual([]);
    for (const each of [came.clock, own.clock, clock]) each.set(later);
    refuse(laptop, '104');
    await syncWith(laptop, came);
    refuse(own.book, '104');
    const [mine, its] = [alerts(own.book, later), alerts(came.book, later)];
    expect(its).toEqual([['R-31', expect.objectContaining({ cow: '104', milking: AFTERNOON })]]);
    const withoutRef = (each: typeof its) => each.map(([rule, values]) => [rule, { ...Object(values), ref: '' }]);
    expect(withoutRef(its)).toEqual(withoutRef(mine));
  });

  test('R-27 was not known here before it came, and replay says so', async () => {
    const { server, book, clock } = await aPair();
    refuse(book, '104');
    server.clock.set(at('2026-03-14T15:00:00Z'));
    clock.set(at('2026-03-14T15:00:00Z'));
    await syncWith(book, server);
    const { past, present, differences } = replay(server.book, {
      milking: AFTERNOON,
      knownAt: at('2026-03-14T14:59:00Z'),
    });
    expect(past.views.sheets['milk-hold'].held).toEqual([]);
    expect(present.views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['104']);
    expect(differences.find(({ list, cow }) => list === 'milk-hold' && cow === '104')).toMatchObject({ was: null });
    // In the book where it was refused it was known.
    const here = replay(book, { milking: AFTERNOON, knownAt: at('2026-03-14T14:59:00Z') });
    expect(here.past.views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['104']);
  });
});

test('R-27 a farm whose first book refused everything still goes over, with its entries', async () => {
  const clockless = aLaptop();
  tell(clockless.book, START, farmEntries());
  refuse(clockless.book, '101', '102', '103', '104', '105', '106');
  const empty = await aServer({}, []);
  expect(await syncWith(clockless.book, empty)).toMatchObject({ pushed: { recorded: 8 }, refused: { went: 6 } });
  expectSame(clockless.book, empty.book);
});
