/** A book on real time with a farm in it and devices to speak for it, and what has to be true of it in the end. */
import { expect } from 'vitest';
import type { Role } from '../../api/devices/roles.ts';
import { type Book, openBook } from '../../events/book.ts';
import { systemClock } from '../../shared/clock.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { farmEntries, tell } from '../api/server/a-server.ts';
import { newPath } from '../events/a-book.ts';
import type { Receipt } from './client.ts';

export interface BusyFarm {
  readonly file: string;
  /** Entries in the book before anybody spoke. */
  readonly first: number;
  readonly tokens: readonly string[];
}

/** Makes the book and closes it again. `devices`: the role of each, in the order of the tokens. */
export const aBusyFarm = (devices: readonly Role[], file = newPath()): BusyFarm => {
  const book = openBook(file, { clock: systemClock, create: true });
  tell(book, systemClock.now(), farmEntries());
  const tokens = devices.map((role, each) => book.devices.add(`device-${each}`, role).token);
  const first = book.head().position;
  book.close();
  return { file, first, tokens };
};

/** One entry as a reader saw it. */
export interface Seen {
  readonly position: number;
  readonly hash: string;
}

export const seenOf = (entry: string, position: number): Seen => ({ position, hash: sha256(entry) });

/** What a writer was told: which entry stands where, and what is kept aside under which key. */
export interface Told {
  readonly positions: ReadonlyMap<string, number>;
  readonly keys: ReadonlySet<string>;
}

/** What a writer was told by all its receipts. */
export const toldBy = (receipts: readonly Receipt[]): Told => ({
  positions: new Map(
    receipts.flatMap(({ id, position }): [string, number][] =>
      id === null || position === undefined ? [] : [[id, position]],
    ),
  ),
  keys: new Set(receipts.flatMap(({ key }) => key ?? [])),
});

/** Everything acknowledged is there once, in its place; every reader saw the log as it is, from its beginning; it verifies. */
export const expectWhole = (book: Book, told: readonly Told[], readers: readonly (readonly Seen[])[]): void => {
  const rows = book.rows(0, 10_000_000);
  const places = new Map<string, number[]>();
  for (const { position, entry } of rows) {
    const { id } = JSON.parse(entry) as { id: string };
    places.set(id, [...(places.get(id) ?? []), position]);
  }
  expect(rows.findIndex(({ position }, index) => position !== index + 1)).toBe(-1);
  expect([...places].filter(([, positions]) => positions.length > 1)).toEqual([]);
  const misplaced = told.flatMap(({ positions }) => [...positions].filter(([id, at]) => places.get(id)?.[0] !== at));
  expect(misplaced).toEqual([]);
  const kept = new Set(book.read().asides.map(({ key }) => key));
  expect(told.flatMap(({ keys }) => [...keys].filter((key) => !kept.has(key)))).toEqual([]);
  const log = rows.map(({ position, entry }) => seenOf(entry, position));
  for (const seen of readers) {
    expect(seen.findIndex((each, index) => each.position !== index + 1)).toBe(-1);
    expect(seen.filter((each, index) => each.hash !== log[index]?.hash)).toEqual([]);
  }
  expect(book.verify()).toMatchObject({ ok: true, problems: [], signed: true });
};
