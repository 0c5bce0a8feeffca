/** Entries by the million lie closer together than one that is read by itself. They say the same. */
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../events/entry.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { readStored } from '../../events/stored.ts';
import { entryPage } from '../../events/stored-entry.ts';
import { sha256 } from '../../shared/fingerprint.ts';

const FIELDS = [
  'id',
  'type',
  'subject',
  'at',
  'author',
  'source',
  'data',
  'content',
  'position',
  'recordedAt',
  'via',
] as const satisfies readonly (keyof Entry)[];

const saidIn = (entry: Entry) => Object.fromEntries(FIELDS.map((field) => [field, entry[field]]));

const rowOf = (position: number, own: object = {}, content = sha256(`content ${position}`)) => {
  const type = ENTRY_TYPES[position % ENTRY_TYPES.length] ?? 'calving';
  const entry = JSON.stringify({
    specversion: '1.0',
    id: `a-${position}`,
    source: 'phone',
    type,
    ...(KINDS[type].subject === 'farm' ? {} : { subject: '412' }),
    time: `2026-03-14T16:${String(position % 60).padStart(2, '0')}:00Z`,
    author: 'Marta',
    data: KINDS[type].example,
    sequence: String(position).padStart(10, '0'),
    recordedtime: `2026-03-14T17:00:00.${String(position % 1_000).padStart(3, '0')}Z`,
    ...own,
  });
  return { position, entry, content };
};

const read = (row: ReturnType<typeof rowOf>, page?: ReturnType<typeof entryPage>): Entry => {
  const known = readStored(row, page);
  if (!known.ok) throw new Error(known.unusable.problem);
  return known.entry;
};

describe('entries of one page', () => {
  test('say in every field what each says that is read alone', () => {
    const rows = Array.from({ length: 200 }, (_, index) =>
      rowOf(7_001 + index, index % 3 === 0 ? { via: `book ${index % 2}` } : {}),
    );
    const page = entryPage(7_001, rows.length);
    const entries = rows.map((row) => read(row, page));
    expect(entries.map(saidIn)).toEqual(rows.map((row) => saidIn(read(row))));
    expect(new Set(entries.map(({ content }) => content)).size).toBe(rows.length);
  });

  test.each([
    ['capitals', sha256('a').toUpperCase()],
    ['a letter that is no digit', `g${sha256('a').slice(1)}`],
    ['a letter beyond ASCII', `é${sha256('a').slice(1)}`],
    ['too short', sha256('a').slice(1)],
    ['too long', `${sha256('a')}0`],
    ['nothing', ''],
  ])('keep a content hash as somebody wrote it into the file: %s', (_, content) => {
    const page = entryPage(1, 3);
    const entries = [1, 2, 3].map((position) => read(rowOf(position, {}, position === 2 ? content : undefined), page));
    expect(entries.map((entry) => entry.content)).toEqual([sha256('content 1'), content, sha256('content 3')]);
  });
});
