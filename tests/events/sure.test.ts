/** The fast way out of the log says what the schemas say, or nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { envelope } from '../../events/envelope.ts';
import { ENTRY_TYPES, isEntryType, KINDS } from '../../events/kinds.ts';
import { readStored } from '../../events/stored.ts';
import { sureOf, UNSURE } from '../../events/sure.ts';

/** Values that a payload might hold by right, by mistake or by malice. */
const ODD = fc.oneof(
  fc.constantFrom<unknown>(null, '', ' ', 'none', 'unknown', '2026-03-14', '2026-02-30', '2026-03-14T16:40:00Z', '412'),
  fc.constantFrom<unknown>('left-front', 'milking', 'a\u200bb', '\ud800', 'x'.repeat(501), '2026-03-14/afternoon'),
  fc.constantFrom<unknown>(-1, 0, 1.5, 3, 1e300, true, [], {}, ['left-front'], { hours: 60 }, { milkings: 0 }),
  fc.constantFrom<unknown>({ value: 1, unit: 'ml' }, [{ upToDoses: 1, days: 2 }, { days: 9 }], { hours: 1, more: 1 }),
  fc.jsonValue(),
);

describe('the way out of the log', () => {
  test('an envelope with any field changed, added or taken out is usable just where the schemas say so', () => {
    const { example } = KINDS.treatment;
    const good = {
      specversion: '1.0',
      id: 'a-1',
      source: 'phone',
      type: 'treatment',
      subject: '412',
      time: '2026-03-14T16:40:00Z',
      author: 'Marta',
      data: example,
      sequence: '0000000001',
      recordedtime: '2026-03-14T16:52:10.120Z',
    };
    const names = [...Object.keys(good), 'datacontenttype', 'via', 'more', '__proto__'];
    const values = fc.oneof(
      ODD,
      fc.constantFrom<unknown>(
        '1.0',
        'application/json',
        'calving',
        'head-count',
        'no-such-kind',
        '2026-02-29T00:00:00Z',
      ),
      fc.constant(undefined),
    );
    let usable = 0;
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...names), values), { maxLength: 2 }), (changed) => {
        const fields = new Map<string, unknown>(Object.entries(good));
        for (const [name, value] of changed) {
          if (value === undefined) fields.delete(name);
          else fields.set(name, value);
        }
        const text = `{${[...fields].map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`).join(',')}}`;
        const { sequence: _, recordedtime: __, via: ___, ...said } = JSON.parse(text);
        const shape = envelope.safeParse(said);
        const type = shape.success && isEntryType(shape.data.type) ? shape.data.type : undefined;
        const wanted =
          shape.success &&
          type !== undefined &&
          KINDS[type].subject !== (shape.data.subject === undefined ? 'cow' : 'farm') &&
          KINDS[type].schema.safeParse(shape.data.data).success;
        const read = readStored({ position: 1, entry: text, content: 'c'.repeat(64) });
        expect([text, read.ok]).toEqual([text, wanted]);
        if (read.ok) usable += 1;
      }),
      { numRuns: 3_000, seed: 20260314 },
    );
    expect(usable).toBeGreaterThan(300);
  });
});

describe('an entry that came through another book', () => {
  test.each(ENTRY_TYPES)('%s is read as one that was recorded here, and says last through whom it came', (type) => {
    const { subject, example } = KINDS[type];
    const stored = (own: object) => ({
      position: 1,
      entry: JSON.stringify({
        specversion: '1.0',
        id: 'a-1',
        source: 'phone',
        type,
        ...(subject === 'farm' ? {} : { subject: '412' }),
        time: '2026-03-14T16:40:00Z',
        author: 'Marta',
        data: example,
        sequence: '0000000001',
        recordedtime: '2026-03-14T16:52:10.120Z',
        ...own,
      }),
      content: 'c'.repeat(64),
    });
    const fieldsOf = (own: object) => {
      const read = readStored(stored(own));
      return read.ok ? Object.entries(read.entry) : [];
    };
    const here = fieldsOf({});
    expect(here.length).toBeGreaterThan(8);
    for (const via of ['office', 'barn', 'office']) expect(fieldsOf({ via })).toEqual([...here, ['via', via]]);
  });
});

describe('what a schema surely accepts', () => {
  test.each(ENTRY_TYPES.filter((type) => type !== 'sheet-issued'))(
    'the example of %s is surely accepted, as its schema gives it',
    (type) => {
      const { schema, example } = KINDS[type];
      const given = sureOf(schema)(JSON.parse(JSON.stringify(example)));
      expect(given).toStrictEqual(schema.parse(example));
    },
  );

  test.each(ENTRY_TYPES)(
    '%s with any field changed, added or taken out: the schema accepts what is surely accepted, and gives the same',
    (type) => {
      const { schema, example } = KINDS[type];
      const names = [...Object.keys('shape' in schema ? schema.shape : {}), 'not-a-field', '__proto__', 'toString'];
      const changes = fc.array(fc.tuple(fc.constantFrom(...names), fc.oneof(ODD, fc.constant(undefined))), {
        maxLength: 3,
      });
      fc.assert(
        fc.property(changes, fc.boolean(), (changed, backwards) => {
          const fields = new Map<string, unknown>(Object.entries(example));
          for (const [name, value] of changed) {
            if (value === undefined) fields.delete(name);
            else fields.set(name, value);
          }
          const listed = [...fields].map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`);
          const value: unknown = JSON.parse(`{${(backwards ? listed.reverse() : listed).join(',')}}`);
          const given = sureOf(schema)(value);
          if (given === UNSURE) return;
          const judged = schema.safeParse(value);
          expect(judged.success).toBe(true);
          expect(given).toStrictEqual(judged.data);
          // In the same order too: a cow's history lists the fields as they come.
          expect(JSON.stringify(given)).toBe(JSON.stringify(judged.data));
        }),
        { numRuns: 400, seed: 20260314 },
      );
    },
  );

  test('a text that was refused once stays refused, and one that passed passes again', () => {
    const sure = sureOf(z.string().max(3));
    for (let time = 0; time < 3; time += 1) {
      expect(sure('abc')).toBe('abc');
      expect(sure('abcd')).toBe(UNSURE);
    }
    for (let index = 0; index < 10_000; index += 1)
      expect(sure(String(index % 5_000))).toBe(index % 5_000 > 999 ? UNSURE : String(index % 5_000));
  });

  test('what changes a value, fills it in or lets unknown fields through is left to the schema', () => {
    expect(sureOf(z.string().trim())(' a ')).toBe(UNSURE);
    expect(sureOf(z.string().default('a'))('b')).toBe(UNSURE);
    expect(sureOf(z.looseObject({ a: z.string() }))({ a: 'b' })).toBe(UNSURE);
    expect(sureOf(z.object({ a: z.string() }))({ a: 'b' })).toBe(UNSURE);
    expect(sureOf(z.coerce.number())('1')).toBe(UNSURE);
    expect(sureOf(z.string().transform(Number))('1')).toBe(UNSURE);
    expect(sureOf(z.union([z.strictObject({ a: z.number() }), z.strictObject({ a: z.int() })]))({ a: 1 })).toBe(UNSURE);
  });
});
