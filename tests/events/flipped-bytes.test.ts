/**
 * Any one changed byte of any stored entry is found. Each change is made in a copy of the file's own bytes (text, content hash
 * or leaf hash of a row, every byte of every row at least once), which SQLite then reads from memory. All ten thousand go
 * through the check that verify makes of the rows; `verify.test.ts` puts three hundred through the whole of verify on disk.
 */
import fs from 'node:fs';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { KINDS } from '../../events/kinds.ts';
import { leafHash } from '../../events/log/merkle.ts';
import { checkEntries } from '../../events/log/verify-entries.ts';
import { dose, newPath, opened, passed, strike } from './a-book.ts';

const FLIPS = 10_000;

/** The same dice on every run. */
const dice = (seed: number) => (sides: number) => {
  seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
  return Math.floor((seed / 2 ** 32) * sides);
};

const aBook = () => {
  const book = opened(newPath());
  book.record([dose('d1', '412', { author: 'Łucja 🐄' }), dose('d2', '413'), strike('s1', 'd1')]);
  book.record([passed({ id: 'l', type: 'cow-left', subject: '9', data: { reason: 'sold-for-beef' } })], 'laptop');
  book.recordOwn('sheet-issued', { ...KINDS['sheet-issued'].example, ...book.head(), sheets: [] });
  const rows = book.rows(0, 100);
  book.close();
  const bytes = fs.readFileSync(book.path);
  // Bytes 18 and 19 of the header ask for a write-ahead log, which a database in memory can't have.
  bytes.fill(1, 18, 20);
  return { rows, bytes };
};

/** What the check of the rows says of the file with these bytes: the first position, or null. */
const firstProblem = (bytes: Buffer): number | null | undefined => {
  const db = new Database(bytes, { readonly: true });
  const positions: (number | null)[] = [];
  try {
    checkEntries(db, [], (position) => positions.push(position));
  } finally {
    db.close();
  }
  return positions[0];
};

test(`${FLIPS.toLocaleString('en')} single bytes changed in stored rows are each found at their position by verify's check of the rows`, () => {
  const { rows, bytes } = aBook();
  expect(firstProblem(bytes)).toBeUndefined();
  const places = rows.flatMap(({ position, entry, content }) => {
    // A row's columns lie one behind the other: text, content hash, leaf hash.
    const stored = Buffer.from(entry + content + leafHash(entry));
    const starts: number[] = [];
    for (let at = bytes.indexOf(stored); at >= 0; at = bytes.indexOf(stored, at + 1)) starts.push(at);
    expect(starts, 'the row is found in the file').not.toEqual([]);
    return Array.from(stored, (byte, offset) => ({ position, byte, at: starts.map((start) => start + offset) }));
  });
  expect(places.length).toBeLessThan(FLIPS);
  const roll = dice(6962);
  const unseen: string[] = [];
  for (let turn = 0; turn < FLIPS; turn += 1) {
    const { position, byte, at } = places[turn] ?? places[roll(places.length)] ?? { position: 0, byte: 0, at: [] };
    const flipped = (byte + 1 + roll(255)) % 256;
    for (const place of at) bytes[place] = flipped;
    const found = firstProblem(bytes);
    for (const place of at) bytes[place] = byte;
    if (found !== position) unseen.push(`position ${position}, byte ${byte} to ${flipped}: ${found}`);
  }
  expect(unseen).toEqual([]);
  expect(firstProblem(bytes)).toBeUndefined();
}, 120_000);
