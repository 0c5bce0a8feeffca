/** A page of another book's log, read fast, says what parsing it and writing it anew says. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalText, entryText } from '../../events/log/canonical-write.ts';
import { columnsOf } from '../../events/log/columns.ts';
import { leafHash } from '../../events/log/merkle.ts';
import { leafIn, type PageEntry, readPage, relayedIn, timeIn } from '../../events/log-page.ts';
import { readRelayed } from '../../events/relay.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { orThrown, STORED, spoilt } from './odd-json.ts';

const SEED = 20260314;
const OWN = { sequence: '0000000007', recordedtime: '2026-03-14T16:52:10Z', via: 'the "laptop"' };

/** What is recorded of an entry: its columns, its content, and the text that goes into the log. */
const recordedOf = (relayed: ReturnType<typeof relayedIn>): unknown => {
  if (relayed.outcome === 'refused') return relayed;
  const { said, content, halves } = relayed;
  const text = halves === undefined ? canonicalText({ ...said, ...OWN }) : entryText(halves, OWN);
  return { text, content, columns: columnsOf(said), type: said.type };
};

const expectAsParsed = (entry: PageEntry, value: unknown): void => {
  const leaf = orThrown(() => leafHash(canonicalJson(value)));
  expect(leafIn(entry) ?? 'thrown').toBe(leaf);
  expect(recordedOf(relayedIn(entry))).toEqual(recordedOf(readRelayed(value)));
  expect(timeIn(entry)).toBe(timeIn({ value }));
};

test('whatever comes, each entry of it has the hash, the columns and the text that parsing it gives', () => {
  let [fast, slow, refused] = [0, 0, 0];
  const page = fc
    .tuple(
      fc.array(spoilt(STORED), { maxLength: 4 }),
      fc.constantFrom('[]', '[]', '[]', '[] ', '{}'),
      fc.constantFrom(',', ',', ', '),
    )
    .map(([texts, [open, close, more = ''], comma]) => `${open}${texts.join(comma)}${close}${more}`);
  fc.assert(
    fc.property(page, (text) => {
      const values = orThrown(() => JSON.parse(text) as unknown);
      const read = orThrown(() => readPage(text)) as PageEntry[] | undefined | 'thrown';
      if (values === 'thrown' || !Array.isArray(values)) {
        refused += 1;
        expect(read).toBe(values === 'thrown' ? 'thrown' : undefined);
        return;
      }
      if (!Array.isArray(read)) throw new Error('an array was not read');
      expect(read).toHaveLength(values.length);
      read.forEach((entry, index) => {
        if ('text' in entry) fast += 1;
        else slow += 1;
        expectAsParsed(entry, values[index]);
      });
    }),
    { numRuns: 10_000, seed: SEED },
  );
  expect(Math.min(fast, slow, refused)).toBeGreaterThan(500);
});

describe('an entry of another book', () => {
  const said = { author: 'Łucja', data: { kg: 12.4 }, id: 'a', source: 'barn', time: '2026-03-14T16:40:00Z' };
  const stored = { ...said, recordedtime: '2026-03-14T16:40:10Z', sequence: '0000000001', type: 'milk-record' };
  test.each([
    ['as every book writes it', stored, true],
    ['that came through a third book', { ...stored, via: 'far' }, true],
    ['about a cow whose number has spaces in it', { ...stored, subject: '999 000 1' }, true],
    ['with a field that comes before the book’s own', { ...stored, place: 'barn' }, true],
    ['with a field between the book’s own', { ...stored, region: 'north' }, false],
    ['with a field behind the kind', { ...stored, urgent: true }, false],
    ['with a field behind where it came through', { ...stored, via: 'far', zone: 1 }, false],
    ['without an order of its own', { ...said, type: 'milk-record' }, false],
    ['with a number for its order', { ...stored, sequence: 1 }, false],
    ['with another kind of time', { ...stored, time: 5 }, false],
    ['that strikes one', { ...stored, type: 'entry-struck', data: { entry: 'b', reason: 'wrong' } }, false],
    ['with quotes in it', { ...stored, author: 'the "vet"' }, false],
    ['with a control character in its id', { ...stored, id: 'a\u007fb' }, false],
    ['with an endless id', { ...stored, id: 'a'.repeat(1_001) }, false],
    [
      'with a field that is lost on copying',
      JSON.parse(canonicalJson(stored).replace('{', '{"__proto__":{"a":1},')),
      false,
    ],
    ['nested too deeply', { ...stored, data: JSON.parse(`${'['.repeat(120)}${']'.repeat(120)}`) }, false],
    ['that is none', ['a'], false],
  ] as [string, unknown, boolean][])('%s is recorded as if it had been parsed', (_, value, isFast) => {
    const text = canonicalJson(value);
    const page = readPage(`[${text},${canonicalJson(stored)}]`) ?? [];
    expect(page).toHaveLength(2);
    const [entry = { value: 'missing' }, behind = { value: 'missing' }] = page;
    expectAsParsed(entry, JSON.parse(text));
    expectAsParsed(behind, stored);
    const relayed = relayedIn(entry);
    expect('halves' in relayed).toBe(isFast);
  });

  test.each(['', '[', '[{"id":"a"', '[{"id":"a}]', `[${canonicalJson(stored)},]`, `[${canonicalJson(stored)}`])(
    'of a page that breaks off, %s, is not taken',
    (text) => {
      expect(() => readPage(text)).toThrow(SyntaxError);
    },
  );
});
