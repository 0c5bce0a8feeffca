/** The fast ways into the log and through it say what the long ways say, or leave it to them. */
import fc from 'fast-check';
import { parse } from 'lossless-json';
import { describe, expect, test } from 'vitest';
import { readLine } from '../../events/door.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { isCanonical, saidIn } from '../../events/log/canonical-text.ts';
import { canonicalText, entryText, halvesOf, saidText } from '../../events/log/canonical-write.ts';
import { columnsOf } from '../../events/log/columns.ts';
import { plainText } from '../../events/log/plain-text.ts';
import { parseStrictJson, parseWithCare } from '../../events/strict-json.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { at, DOOR } from './a-book.ts';
import { JSON_VALUE, orThrown, STORED, spoilt, WORD } from './odd-json.ts';

const SEED = 20260314;

describe('canonical text', () => {
  test('is written as by the general way, and refused where that refuses', () => {
    fc.assert(
      fc.property(JSON_VALUE, (value) => {
        expect(orThrown(() => canonicalText(value))).toBe(orThrown(() => canonicalJson(value)));
      }),
      { numRuns: 5_000, seed: SEED },
    );
  });

  test.each([
    [Number.NaN],
    [Number.POSITIVE_INFINITY],
    [{ a: undefined }],
    [[undefined]],
    [new Date(0)],
    [{ a: new Date(0) }],
    [undefined],
  ])('of %o is as by the general way', (value) => {
    expect(orThrown(() => canonicalText(value))).toBe(orThrown(() => canonicalJson(value)));
  });

  test('of an entry comes in two halves, which the book’s own fields stand between', () => {
    const text = fc.oneof(WORD, fc.constantFrom('2026-03-14T16:40:00Z', 'office'));
    const half = fc.record({ id: text, type: text, source: text, author: text, time: text, data: JSON_VALUE });
    let written = 0;
    fc.assert(
      fc.property(
        half,
        fc.option(text, { nil: undefined }),
        fc.option(text, { nil: undefined }),
        (fields, subject, via) => {
          const said = { specversion: '1.0', ...fields, ...(subject === undefined ? {} : { subject }) };
          const halves = halvesOf(said);
          if (halves === undefined) return;
          written += 1;
          const own = { sequence: '0000000412', recordedtime: '2026-03-14T16:52:10.120Z', via };
          expect(saidText(halves)).toBe(canonicalJson(said));
          if (via?.includes('\ud800')) return;
          expect(entryText(halves, own)).toBe(canonicalJson({ ...said, ...own }));
        },
      ),
      { numRuns: 3_000, seed: SEED },
    );
    expect(written).toBeGreaterThan(300);
  });
});

describe('JSON at the door', () => {
  test('read fast is what it is with care, and every refusal has the same words', () => {
    const texts = spoilt(
      fc.tuple(JSON_VALUE, fc.constantFrom(undefined, 1)).map(([value, indent]) => JSON.stringify(value, null, indent)),
    );
    const odd = fc.constantFrom(
      '{"a":1,"a":1}',
      '{"a":1,"a":2}',
      '{"a":{"b":1,"b":1}}',
      '[{"a":1,"\\u0061":1}]',
      '{"a":9007199254740993}',
      '{"a":0.1000000000000000055}',
      '{"a":1e3}',
      '{"a":1E400}',
      '{"a":1.0}',
      '{"a":-0}',
      '{"__proto__":1}',
      `${'['.repeat(102)}${']'.repeat(102)}`,
      `${'['.repeat(99)}${']'.repeat(99)}`,
      '',
      ' ',
      'null',
      '"a"',
      '12',
      '\ufeff{}',
      '{"a":"\ud800"}',
      '{"a":123456789012345,"b":1234567890123456}',
      '{"a:b":"c:d","e":":"}',
      '{"a":"\\\\","b":"\\"":1}',
    );
    fc.assert(
      fc.property(fc.oneof({ weight: 4, arbitrary: texts }, { weight: 1, arbitrary: odd }), (text) => {
        const fast = parseStrictJson(text);
        expect(fast).toStrictEqual(parseWithCare(text));
        if (fast.ok) expect(JSON.stringify(fast.value)).toBe(JSON.stringify(parse(text, undefined, Number)));
      }),
      { numRuns: 6_000, seed: SEED },
    );
  });

  /** A content type that changes nothing sends a line the long way. */
  const theLongWay = (text: string): string => text.replace(/\}\s*$/, ',"datacontenttype":"application/json"}');

  test.each(ENTRY_TYPES)('a line of %s passes alike either way, its id given or derived', (type) => {
    const { example, subject } = KINDS[type];
    for (const more of [{ id: 'x-1' }, {}, { id: 'x-2', source: 'phone', author: 'Bram', specversion: '1.0' }]) {
      for (const cow of [{}, { subject: '412' }, { subject: '999 000000000412' }]) {
        const text = JSON.stringify({ type, time: '2026-03-14T16:40:00Z', ...cow, ...more, data: example });
        const fast = readLine(text, DOOR);
        const slow = readLine(theLongWay(text), DOOR);
        expect(fast.outcome).toBe(slow.outcome);
        if (fast.outcome === 'refused' || slow.outcome === 'refused') {
          expect(fast).toMatchObject({ problem: 'problem' in slow ? slow.problem : '' });
          continue;
        }
        const { halves: _, ...passed } = fast;
        const { halves: __, ...passedSlowly } = slow;
        // Only a derived id knows of the content type.
        if (more.id !== undefined) expect(passed).toStrictEqual(passedSlowly);
        expect(JSON.stringify({ ...fast.said, id: '' })).toBe(JSON.stringify({ ...slow.said, id: '' }));
        expect(fast.content).toBe(sha256(canonicalJson(fast.said)));
        expect(fast.derivedId).toBe(more.id === undefined);
      }
    }
    expect(['cow', 'farm', 'either']).toContain(subject);
  });

  test('a line said twice without an id has one id, whichever way it is written', () => {
    const [one, two] = [
      '{"type":"head-count","time":"2026-03-14T16:40:00Z","data":{"group":"Dry","count":4}}',
      '{ "data" : {"count":4, "group":"Dry"}, "time":"2026-03-14T16:40:00Z", "type":"head-count" }',
    ].map((text) => readLine(text, DOOR));
    expect(one).toMatchObject({ outcome: 'passed', at: at('2026-03-14T16:40:00Z') });
    expect(two).toMatchObject({ outcome: 'passed', content: one?.outcome === 'passed' ? one.content : '' });
  });
});

describe('a stored text read by eye', () => {
  test('is canonical where it says so, and says what parsing it says', () => {
    let [sure, asked] = [0, 0];
    fc.assert(
      fc.property(spoilt(STORED), (text) => {
        asked += 1;
        const plain = plainText(text);
        if (plain === undefined) return;
        sure += 1;
        const value = JSON.parse(text);
        expect(isCanonical(value, text)).toBe(true);
        expect(canonicalJson(value)).toBe(text);
        expect(plain).toMatchObject({ ...columnsOf(value), type: value.type, said: saidIn(value, text) });
        expect(plain.sequence).toBe(value.sequence ?? '');
        expect(plain.recordedtime).toBe(value.recordedtime ?? '');
      }),
      { numRuns: 20_000, seed: SEED },
    );
    expect(sure / asked).toBeGreaterThan(0.2);
  });

  test.each([
    ['a space', '{"id":"a", "type":"b"}'],
    ['fields out of order', '{"type":"b","id":"a"}'],
    ['a field said twice', '{"id":"a","id":"a","type":"b"}'],
    ['a needless escape', '{"id":"\\u0061","type":"b"}'],
    ['a needless zero', '{"data":1.50,"id":"a","type":"b"}'],
    ['an exponent', '{"data":1e3,"id":"a","type":"b"}'],
    ['minus nothing', '{"data":-0,"id":"a","type":"b"}'],
    ['a leading zero', '{"data":01,"id":"a","type":"b"}'],
    ['a number that is written otherwise', '{"data":0.0000001,"id":"a","type":"b"}'],
    ['something behind it', '{"id":"a","type":"b"} '],
    ['no end', '{"id":"a","type":"b"'],
    ['a comma too many', '{"id":"a","type":"b",}'],
    ['an inner object out of order', '{"data":{"b":1,"a":1},"id":"a","type":"b"}'],
    ['nothing', ''],
  ])('%s is not taken for canonical', (_, text) => {
    expect(plainText(text)).toBeUndefined();
  });

  test('an entry as the book writes it is read this way, whatever its kind', () => {
    for (const type of ENTRY_TYPES) {
      const { example } = KINDS[type];
      const said = {
        specversion: '1.0',
        id: 'x',
        source: 'office',
        type,
        subject: '412',
        time: '2026-03-14T16:40:00Z',
        author: 'Łucja',
        data: example,
      };
      const text = canonicalJson({
        ...said,
        sequence: '0000000001',
        recordedtime: '2026-03-14T16:52:10Z',
        via: 'laptop',
      });
      expect([type, plainText(text)?.said]).toEqual([type, canonicalJson(said)]);
    }
  });
});
