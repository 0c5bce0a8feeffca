/** What another book refused is kept as its word: it holds here as there, adds nothing twice, and none of it is trusted. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../events/book.ts';
import { type Refusal, readable, saysMore, together } from '../../events/refusal.ts';
import { carriable, LONGEST_CARRIED, readRefusal } from '../../events/refused-elsewhere.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { at, bare, dose, handClock, line, newBook, newPath, opened } from './a-book.ts';
import { TWO_ALIKE } from './two-alike.ts';

const said = (more: Partial<Refusal> = {}): Refusal => ({
  text: '{"subject":"412"',
  problem: 'it is not readable JSON',
  pointer: null,
  id: null,
  cows: ['412'],
  mentions: [],
  ...more,
});

const onFarm = (file = newPath()): Book => {
  const book = opened(file);
  book.adoptFarm('a farm');
  return book;
};

const carry = (book: Book, ...values: readonly unknown[]) => book.carry(values.map(readRefusal), 'office');
const all = { rows: 1_000, characters: 10_000_000 };
const pageOf = (book: Book) => book.refusedBehind(0, all)?.refused ?? [];
const cowsOf = (book: Book) => book.read().asides.map(({ cows }) => cows);

describe('what another book refused', () => {
  test('R-27 is kept in its very words, holds its cow, and names the peer it came through', () => {
    const path = newPath();
    const book = onFarm(path);
    const refusal = said({ text: '{"id":"x","subject":"412"}', pointer: '/type', id: 'x', mentions: ['dose-7'] });
    const [carried] = carry(book, refusal);
    expect(carried).toEqual({
      outcome: 'set-aside',
      key: `set-aside:${sha256(refusal.text).slice(0, 12)}`,
      number: 1,
    });
    expect(book.read().asides).toMatchObject([
      { key: carried?.key, problem: 'it is not readable JSON', cows: ['412'], id: 'x' },
    ]);
    expect(bare(path).prepare('select text, door from set_aside').get()).toEqual({
      text: refusal.text,
      door: 'office',
    });
    expect(pageOf(book)).toEqual([refusal]);
    expect(book.verify()).toMatchObject({ ok: true, setAside: 1 });
  });

  test('R-27 has the key here that it has there, and the same line again adds nothing, from whichever side', () => {
    const [there, here] = [newBook(), onFarm()];
    const [receipt] = there.record([line('{"subject":"412"')]);
    const [refusal] = pageOf(there);
    expect(carry(here, refusal)).toMatchObject([{ outcome: 'set-aside', key: receipt?.key }]);
    const changes = here.changes();
    expect(carry(here, refusal, refusal)).toEqual([
      { outcome: 'already-known', key: receipt?.key },
      { outcome: 'already-known', key: receipt?.key },
    ]);
    expect(here.record([line('{"subject":"412"')])).toMatchObject([{ outcome: 'refused', key: receipt?.key }]);
    expect(here.changes()).toBe(changes);
  });

  test('R-27 a line that would pass the door here is set aside all the same', () => {
    const book = onFarm();
    const good =
      '{"id":"g","type":"milk-hold","subject":"413","time":"2026-03-14T16:40:00Z","data":{"reason":"clots"}}';
    carry(book, said({ text: good, problem: 'the machine may not write that', cows: ['413'], id: 'g' }));
    expect(cowsOf(book)).toEqual([['413']]);
    expect(book.find('g')).toEqual([]);
  });

  test('is known here from when it came, and not before', () => {
    const clock = handClock(at('2026-03-14T10:00:00Z'));
    const book = opened(newPath(), { clock });
    book.adoptFarm('a farm');
    book.record([dose('a', '413')]);
    clock.set(at('2026-03-14T12:00:00Z'));
    carry(book, said());
    expect(book.read({ knownAt: at('2026-03-14T11:59:59Z') }).asides).toEqual([]);
    expect(book.read({ position: 0 }).asides).toEqual([]);
    expect(book.read({ knownAt: at('2026-03-14T12:00:00Z') }).asides).toHaveLength(1);
  });

  test('R-27 names entries whose cows are held, in this book as in the other', () => {
    const book = onFarm();
    carry(book, said({ text: 'a strike', cows: [], mentions: ['a'] }));
    expect(cowsOf(book)).toEqual([[]]);
    book.record([dose('a', '412')]);
    expect(cowsOf(book)).toEqual([['412']]);
  });

  test('of a book without a farm is taken by nobody', () => {
    expect(() => carry(newBook(), said())).toThrow(/adopts the farm/);
  });
});

describe('one line that two books refused with different words', () => {
  const mine = said({ text: 'treated', problem: 'b', cows: ['412'] });
  const theirs = said({ text: 'treated', problem: 'a', cows: ['413'], mentions: ['x'] });

  test('R-27 holds whoever either names, and says the same in every book, in whatever order they came', () => {
    const [one, two] = [onFarm(), onFarm()];
    carry(one, mine, theirs, mine);
    carry(two, theirs, mine, theirs);
    for (const book of [one, two]) {
      expect(book.read().asides).toMatchObject([{ problem: 'a', cows: expect.arrayContaining(['412', '413']) }]);
      expect(pageOf(book)).toHaveLength(2);
      expect(book.verify()).toMatchObject({ ok: true, problems: [] });
      expect(book.setAside(book.read().asides[0]?.key ?? '')).toMatchObject({ text: mine.text, problem: 'a' });
    }
  });

  test('adds nothing where all it names is named already and its words do not come first', () => {
    const book = onFarm();
    carry(book, said({ problem: 'a', cows: ['412', '413'] }));
    expect(carry(book, said({ problem: 'b', cows: ['413'] }))).toMatchObject([{ outcome: 'already-known' }]);
  });

  test('R-27 a line refused again at this door holds whom the id has come to mean since', () => {
    const book = onFarm();
    const text = '{"data":{"medicine":"x"},"id":"a","type":"treatment","subject":"412"}';
    book.record([line(text)]);
    const again = line(text);
    if (again.outcome === 'passed') throw new Error('That line passes');
    book.record([{ ...again, cows: [...again.cows, '413'], problem: 'the id "a" is taken' }]);
    expect(cowsOf(book)).toEqual([['412', '413']]);
    expect(book.record([line(text)])[0]?.outcome).toBe('refused');
    expect(pageOf(book)).toHaveLength(2);
  });

  test('comes to the same in any order and however often (a law)', () => {
    const saying = fc.record({
      problem: fc.constantFrom('a', 'b', 'c'),
      pointer: fc.constantFrom(null, '/id'),
      id: fc.constantFrom(null, 'x'),
      cows: fc.subarray(['1', '2', '3']),
      mentions: fc.subarray(['p', 'q']),
    });
    fc.assert(
      fc.property(fc.array(saying, { minLength: 1, maxLength: 6 }), fc.infiniteStream(fc.nat()), (sayings, dice) => {
        const kept = (inOrder: typeof sayings) => {
          const [first, ...others] = inOrder;
          if (first === undefined) throw new Error('nothing said');
          const rows: [typeof first, ...typeof sayings] = [first];
          for (const each of others) if (saysMore(together(rows), each)) rows.push(each);
          const { cows, mentions, ...words } = together(rows);
          return { ...words, cows: [...cows].sort(), mentions: [...mentions].sort() };
        };
        const shuffled = [...sayings, ...sayings]
          .map((each) => ({ each, key: dice.next().value ?? 0 }))
          .sort((a, b) => a.key - b.key)
          .map(({ each }) => each);
        expect(kept(shuffled)).toEqual(kept(sayings));
      }),
      { seed: 412, numRuns: 300 },
    );
  });
});

test('R-27 two lines made to have one key both go by their whole hash, in whatever order a book got them', () => {
  const [first, second] = TWO_ALIKE.map((text) => said({ text, cows: ['102'] }));
  const whole = TWO_ALIKE.map((text) => `set-aside:${sha256(text)}`);
  const [one, two] = [onFarm(), onFarm()];
  const [alone] = carry(one, first);
  expect(alone?.key).toBe(whole[0]?.slice(0, 22));
  const before = one.head().position;
  expect(one.setAside(alone?.key ?? '')?.text).toBe(TWO_ALIKE[0]);
  expect(carry(one, second)).toMatchObject([{ outcome: 'set-aside', key: whole[1] }]);
  expect(carry(two, second, first)).toMatchObject([{ key: alone?.key }, { key: whole[0] }]);
  for (const book of [one, two]) {
    expect(
      book
        .read()
        .asides.map(({ key }) => key)
        .sort(),
    ).toEqual([...whole].sort());
    for (const [index, key] of whole.entries()) expect(book.setAside(key)?.text).toBe(TWO_ALIKE[index]);
    // Of which one it was meant nobody can say: what was settled under it settles neither.
    expect(book.setAside(alone?.key ?? '')).toBeUndefined();
    expect(carry(book, first, second).map(({ key }) => key)).toEqual(whole);
    expect(book.record([line(TWO_ALIKE[1]), line(TWO_ALIKE[0])]).map(({ key }) => key)).toEqual([whole[1], whole[0]]);
    expect(book.verify()).toMatchObject({ ok: true, problems: [] });
  }
  expect(one.head().position).toBe(before);
});

describe('a refusal that is not as it should be', () => {
  test.each<[string, unknown, string[]]>([
    ['without a text', { problem: 'x', cows: ['412'], mentions: [] }, ['412']],
    ['with a number for a text', { ...said(), text: 7 }, ['412']],
    ['without cows, whose text names one', { text: '{"subject":"413"', problem: 'x' }, ['413']],
    ['whose cows are no list', { ...said(), cows: '412' }, ['412']],
    ['whose cows are numbers', { ...said(), text: 'y', cows: [412, 413] }, ['412', '413']],
    ['that is a text', '{"subject":"414"}', ['414']],
    ['that is a list', [[{ subject: '415' }]], ['415']],
    ['that is nothing', null, []],
    ['with more cows than a herd has', { ...said(), text: 'z', cows: Array(20_001).fill('416') }, ['416']],
  ])('R-27 %s is set aside itself, says so, and holds whoever can be read in it', (_, value, cows) => {
    const book = onFarm();
    const [carried] = carry(book, value);
    expect(carried?.outcome).toBe('set-aside');
    const [aside] = book.read().asides;
    expect(aside?.problem).toMatch(
      /^it came from another book as a line refused there, but can't be read as one \(.+\)/,
    );
    expect([...(aside?.cows ?? [])].sort()).toEqual(cows);
    expect(book.setAside(aside?.key ?? '')?.text).toBe(JSON.stringify(value));
    expect(carry(book, value)).toMatchObject([{ outcome: 'already-known' }]);
    expect(book.verify().ok).toBe(true);
  });

  test('R-27 nested deeper than anything can be written down is set aside too, with the cow beside it', () => {
    let deep: unknown = 'x';
    for (let depth = 0; depth < 200_000; depth += 1) deep = [deep];
    const book = onFarm();
    carry(book, { ...said(), cows: ['412'], text: deep });
    expect(cowsOf(book)).toEqual([['412']]);
  });

  test('R-27 that leaves out the cow of its own line holds her all the same, as the door here would', () => {
    const book = onFarm();
    carry(book, said({ cows: [] }), said({ text: '{"type":"treatment","subject":"413","data":{}}', cows: [] }));
    expect(cowsOf(book)).toEqual([['412'], ['413']]);
  });

  test('R-27 only numbers that a cow can have are cows, only names that an entry can have are entries', () => {
    const { cows, mentions, id } = readRefusal(
      said({ cows: [' 413 ', '412', '12345678901', '', '412'], mentions: ['a\u0000b', 'a', ''], id: 'x\ny' }),
    );
    expect({ cows, mentions, id }).toEqual({ cows: ['413', '412'], mentions: ['a'], id: null });
  });

  test('R-27 of one that names more than anybody could, as much is kept as can be passed on again as it is', () => {
    const [there, here] = [onFarm(), onFarm()];
    const cows = Array.from({ length: 30_000 }, (_, n) => ({ subject: String(n) }));
    carry(there, { cows, mentions: Array.from({ length: 200 }, (_, n) => `m${n}`) });
    const [kept] = pageOf(there);
    expect([kept?.cows.length, kept?.mentions.length]).toEqual([20_000, 100]);
    carry(here, kept);
    expect(pageOf(here)).toEqual([kept]);
    expect(carry(there, ...pageOf(here))).toMatchObject([{ outcome: 'already-known' }]);
    const spaced = readRefusal(said({ cows: [`999${' '.repeat(900)}000000000413`] }));
    expect(spaced.cows).toEqual(['999 000000000413', '412']);
  });

  test('its words come without what a terminal would obey or a paper turn round, and not endless', () => {
    const { problem, pointer } = readRefusal(
      said({ problem: `\u001b[2Jnot\nso \u202e${'x'.repeat(3_000)}`, pointer: '\u0007' }),
    );
    expect(problem).toMatch(/^\[2Jnot so {2}x+$/);
    expect(problem).toHaveLength(2_000);
    expect(pointer).toBeNull();
    expect(readRefusal(said({ problem: ' \n' })).problem).toMatch(/does not say why/);
  });

  test('a line too long to travel gives its beginning, the same from every book; the whole stays where it was refused', () => {
    const long = said({ text: `{"subject":"412","x":"${'x'.repeat(LONGEST_CARRIED)}"`, cows: ['412'] });
    const short = carriable(long);
    expect(short.text).toHaveLength(65_536);
    expect(readRefusal(long)).toEqual(readRefusal(short));
    expect(carriable(short)).toEqual(short);
    const there = onFarm();
    there.record([line(long.text)]);
    expect(pageOf(there)[0]?.text).toBe(short.text);
    expect(there.setAside(there.read().asides[0]?.key ?? '')?.text).toBe(long.text);
  });

  test('whatever comes is read without a failure, and read again from here it is the same', () => {
    const anything = fc.oneof(
      fc.jsonValue(),
      fc.record(
        {
          text: fc.string({ unit: 'binary' }),
          problem: fc.string({ unit: 'binary' }),
          pointer: fc.option(fc.string()),
          id: fc.option(fc.string()),
          cows: fc.array(fc.oneof(fc.string(), fc.constantFrom('412', '999000000000413'))),
          mentions: fc.array(fc.string()),
        },
        { requiredKeys: [] },
      ),
    );
    fc.assert(
      fc.property(anything, (value) => {
        const book = onFarm();
        carry(book, value);
        const [kept] = pageOf(book);
        expect(readRefusal(kept)).toEqual(kept);
        expect(readable(kept ?? said())).toEqual({ ...kept, text: undefined });
        expect(carry(book, kept)).toMatchObject([{ outcome: 'already-known' }]);
        book.close();
      }),
      { seed: 412, numRuns: 60 },
    );
  });
});

test('a page ends after so many rows and so many characters, has one at least, and none behind the last', () => {
  const book = newBook();
  book.record(Array.from({ length: 5 }, (_, n) => line(`{"subject":"${410 + n}"`)));
  const texts = (after: number, rows: number, characters: number) =>
    book.refusedBehind(after, { rows, characters })?.refused.map(({ text }) => text.slice(-4));
  expect(texts(0, 2, 1_000)).toEqual(['410"', '411"']);
  expect(texts(2, 9, 600)).toEqual(['412"', '413"']);
  expect(texts(4, 9, 1)).toEqual(['414"']);
  expect(texts(5, 9, 1)).toEqual([]);
  expect(texts(6, 9, 1)).toBeUndefined();
  const [first, second] = [book.refusedBehind(0, { rows: 2, characters: 9_000 }), book.refusedBehind(2, all)];
  expect([first?.before, first?.number, first?.last]).toEqual(['', 2, 5]);
  expect([second?.before, second?.number, second?.chain]).toEqual([first?.chain, 5, book.lastRefused().chain]);
});
