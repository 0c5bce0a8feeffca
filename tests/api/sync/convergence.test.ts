/**
 * The law of sync: two to four books of one farm, entries by every door, lines refused there, what was refused settled, syncs
 * of any two of them cut off anywhere; once each has synced with the others, all hold the same set of entries and of what was
 * refused, and give the same views, byte for byte.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Book } from '../../../events/book.ts';
import { readValue } from '../../../events/door.ts';
import { readRefusal } from '../../../events/refused-elsewhere.ts';
import { readRelayed } from '../../../events/relay.ts';
import { know } from '../../../projections/know.ts';
import { canonicalJson } from '../../../shared/fingerprint.ts';
import { type AServer, aServer, BATCH, farmEntries, PENICILLIN, START } from '../server/a-server.ts';
import { type AProxy, aProxy } from './a-proxy.ts';
import { setOf, syncWith, viewsOf } from './two-books.ts';

type Value = Record<string, unknown> & { readonly id: string };

const cow = fc.constantFrom('101', '102', '103', '104', '105', '106', '107', '0101');
const time = fc
  .record({ day: fc.integer({ min: 8, max: 13 }), hour: fc.constantFrom('04', '11', '16') })
  .map(({ day, hour }) => `2026-03-${String(day).padStart(2, '0')}T${hour}:30:00Z`);
/** Few ids for many books: now and then two of them say different things under one. */
const id = fc.integer({ min: 0, max: 30 }).map((n) => `said-${n}`);
const group = fc.constantFrom('Milkers', 'Fresh', 'Dry', 'Nowhere');

const about = (type: string, data: fc.Arbitrary<Record<string, unknown>>): fc.Arbitrary<Value> =>
  fc.record({ type: fc.constant(type), subject: cow, time, id, data });
const ordinary = fc.oneof(
  about('treatment', fc.record({ medicine: fc.constantFrom(PENICILLIN, 'Not on the list') })),
  about('group-move', fc.record({ to: group })),
  about('dry-off', fc.record({ product: fc.constant('none'), group: fc.constant('Dry') })),
  about('calving', fc.constant({ calves: [{ sex: 'female', alive: true }] })),
  about('milk-hold', fc.constant({ reason: 'clots' })),
  about('milk-hold-lifted', fc.constant({ reason: 'clear' })),
  about('cow-left', fc.constant({ reason: 'sold-for-milking' })),
  about(
    'cow-entered',
    fc.record({ group, lactation: fc.constantFrom(0, 3), milkHoldUntil: fc.constantFrom('none', 'unknown') }),
  ),
  about('sort-request', fc.record({ reason: fc.constant('feet'), to: group })),
  fc.record({
    type: fc.constant('entry-struck'),
    time,
    id,
    data: fc.record({ entry: id, reason: fc.constant('wrong cow') }),
  }),
  fc.record({
    type: fc.constant('head-count'),
    time,
    id,
    data: fc.record({ group: fc.constantFrom('Milkers', 'Fresh'), count: fc.integer({ min: 0, max: 9 }) }),
  }),
);
/** What another version wrote: an unknown kind, a further field, a time that is none, hardly anything. */
const strange: fc.Arbitrary<Value> = fc.oneof(
  fc.record({
    type: fc.constant('collar-alarm'),
    subject: cow,
    time,
    id,
    data: fc.jsonValue() as fc.Arbitrary<unknown>,
  }),
  fc.record({
    type: fc.constant('treatment'),
    subject: cow,
    time: fc.constantFrom('soon', '2026-03-10T10:00:00'),
    id,
    data: fc.constant({ medicine: PENICILLIN }),
  }),
  fc.record({ type: fc.constant('group-move'), subject: cow, time, id, data: fc.constant({ to: 'Dry', why: 'new' }) }),
  fc.record({ type: fc.constant('weather'), id }),
);

/** What doors refuse: a misspelt field, one that names an entry, an id that may be taken, and what is no entry at all. */
const refusable: fc.Arbitrary<Value> = fc.oneof(
  about('treatment', fc.record({ medicne: fc.constantFrom(PENICILLIN, 'x') })),
  fc.record({
    type: fc.constant('entry-struck'),
    time,
    id,
    data: fc.record({ entry: id, raeson: fc.constant('wrong cow') }),
  }),
  ordinary,
  fc.record({ type: fc.constant('nothing that is known'), subject: fc.option(cow), id }),
);
/** What a book with a fault passes on as refused. */
const brokenRefusal = fc.oneof(
  fc.record({ text: fc.constantFrom('a', 'b', '{"subject":"103"'), problem: fc.string(), cows: fc.array(cow) }),
  {
    weight: 3,
    arbitrary: fc.record({
      text: fc.constantFrom('a', 'b'),
      problem: fc.constantFrom('p', 'q'),
      cows: fc.subarray(['101', '102', 'nobody at all']),
      mentions: fc.array(id, { maxLength: 2 }),
    }),
  },
  fc.jsonValue(),
);

const which = fc.nat();
type Step =
  | { readonly do: 'say' | 'push' | 'relay'; readonly book: number; readonly values: readonly Value[] }
  | { readonly do: 'refuse'; readonly book: number; readonly values: readonly Value[]; readonly pushed: boolean }
  | { readonly do: 'carry'; readonly book: number; readonly refusals: readonly unknown[] }
  | { readonly do: 'settle'; readonly book: number; readonly which: number }
  | { readonly do: 'sync'; readonly book: number; readonly other: number; readonly cut: number };
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    do: fc.constantFrom('say' as const, 'push' as const),
    book: which,
    values: fc.array(ordinary, { minLength: 1, maxLength: 6 }),
  }),
  fc.record({
    do: fc.constant('relay' as const),
    book: which,
    values: fc.array(strange, { minLength: 1, maxLength: 2 }),
  }),
  fc.record({
    do: fc.constant('refuse' as const),
    book: which,
    values: fc.array(refusable, { minLength: 1, maxLength: 3 }),
    pushed: fc.boolean(),
  }),
  fc.record({
    do: fc.constant('carry' as const),
    book: which,
    refusals: fc.array(brokenRefusal, { minLength: 1, maxLength: 2 }),
  }),
  fc.record({ do: fc.constant('settle' as const), book: which, which }),
  fc.record({ do: fc.constant('sync' as const), book: which, other: which, cut: fc.integer({ min: 1, max: 18 }) }),
);

interface Place {
  readonly server: AServer;
  readonly proxy: AProxy;
}

/** What this book has not got an entry of that id for: a second one is refused at its door (`refuse`). */
const fresh = (book: Book, values: readonly Value[]): Value[] => {
  const seen = new Set<string>();
  return values.filter(({ id: each }) => {
    if (seen.has(each) || book.find(each).length > 0) return false;
    seen.add(each);
    return true;
  });
};

const door = { source: 'office', author: 'Marta', now: START };

const take = async ({ server }: Place, said: Exclude<Step, { do: 'sync' }>): Promise<void> => {
  const { book } = server;
  if (said.do === 'refuse') {
    const body = JSON.stringify(said.values);
    if (said.pushed) await server.ask('/sync/push', { method: 'POST', body, headers: { 'content-type': BATCH } });
    else book.record(said.values.map((value) => readValue(value, door)));
    return;
  }
  if (said.do === 'carry') {
    book.carry(said.refusals.map(readRefusal), 'gate');
    return;
  }
  if (said.do === 'settle') {
    const { asides } = book.read();
    const about = asides[said.which % Math.max(1, asides.length)]?.key;
    if (about === undefined) return;
    const settled = { type: 'settled', time: '2026-03-13T12:00:00Z', data: { about, how: 'asked' } };
    book.record([readValue(settled, door)]);
    noted.settled += 1;
    return;
  }
  const { do: how, values } = said;
  if (how === 'relay') {
    book.relay(
      values.map((value) => readRelayed({ specversion: '1.0', source: 'gate', author: 'Ola', ...value })),
      'gate',
    );
    return;
  }
  for (const value of fresh(book, values)) {
    if (how === 'say') book.record([readValue(value, door)]);
    else {
      const answer = await server.ask('/sync/push', {
        method: 'POST',
        body: JSON.stringify([value]),
        headers: { 'content-type': BATCH },
      });
      expect(answer.status).toBe(200);
    }
  }
};

/** Cut off after so many requests; 18 is more than a sync of a few entries makes. */
const partly = async (from: Place, to: Place, cut: number): Promise<void> => {
  const begin = to.proxy.seen.length;
  to.proxy.play((_, index) => (index - begin < cut ? 'pass' : index % 2 === 0 ? 'lose' : 'lose-answer'));
  await syncWith(from.server.book, to.server, {
    url: to.proxy.url,
    patience: { tries: 1, firstWait: 1, longestWait: 1, silence: 5_000 },
  }).catch((thrown: unknown) => {
    if (!(thrown instanceof Error) || thrown.name === 'TypeError') throw thrown;
  });
  to.proxy.play(() => 'pass');
};

const noted = { twofold: 0, strange: 0, held: 0, cut: 0, refused: 0, settled: 0, saidTwice: 0 };

/** What was set aside and is not settled, without when: that is each book's own. */
const asidesOf = (book: Book) => {
  const { entries, asides } = book.read();
  return know(entries, asides).asides.map(({ recordedAt: _, ...aside }) => aside);
};

test('books that have synced with one another hold the same entries and print the same, byte for byte', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 2, max: 4 }),
      fc.array(step, { minLength: 6, maxLength: 28 }),
      async (count, steps) => {
        const places: Place[] = [];
        for (let n = 0; n < count; n += 1) {
          const server = await aServer({}, n === 0 ? farmEntries() : []);
          places.push({ server, proxy: await aProxy(server.url) });
        }
        const at = (n: number): Place => {
          const place = places[n % count];
          if (place === undefined) throw new Error('no such place');
          return place;
        };
        const whole = (from: number, to: number) =>
          syncWith(at(from).server.book, at(to).server, { url: at(to).proxy.url });
        for (let n = 1; n < count; n += 1) await whole(n, 0);
        for (const each of steps) {
          if (each.do !== 'sync') await take(at(each.book), each);
          else if (each.book % count !== each.other % count) {
            await partly(at(each.book), at(each.other), each.cut);
            if (each.cut < 8) noted.cut += 1;
          }
        }
        for (let round = 0; round < 2; round += 1) for (let n = 1; n < count; n += 1) await whole(n, 0);
        const books = places.map(({ server }) => server.book);
        const [first, ...others] = books.map((book) => ({
          set: setOf(book),
          asides: asidesOf(book),
          views: canonicalJson(viewsOf(book)),
        }));
        for (const other of others) expect(other).toEqual(first);
        for (const book of books) expect(book.verify()).toMatchObject({ ok: true, problems: [] });
        for (let n = 1; n < count; n += 1)
          expect(await whole(n, 0)).toMatchObject({
            same: true,
            pulled: { recorded: 0 },
            pushed: { recorded: 0 },
            refused: { travels: true, came: 0, went: 0 },
          });
        const views = viewsOf(at(0).server.book);
        noted.twofold += views.doubts.filter(({ key }) => key.startsWith('two-contents')).length;
        noted.strange += views.doubts.filter(({ key }) => key.startsWith('unusable')).length;
        noted.refused += asidesOf(at(0).server.book).filter(({ key }) => key.startsWith('set-aside')).length;
        const rows = at(0).server.book.refusedBehind(0, { rows: 1_000, characters: 1e9 })?.refused ?? [];
        noted.saidTwice += rows.length - new Set(rows.map(({ text }) => text)).size;
        noted.held += views.sheets['milk-hold'].held.length;
      },
    ),
    { seed: 412, numRuns: 50, endOnFailure: true },
  );
  // The dice did come to the cases that matter.
  for (const [what, much] of Object.entries(noted)) expect([what, much > 20]).toEqual([what, true]);
}, 240_000);
