/**
 * Checks the names and keys a file has gone by against the entries that say so, and tells in sentences which key signed
 * what: a book whose key was lost, or a copy, went on under a new name with a new key.
 */
import { originOf } from './head.ts';
import { verifierKey } from './note.ts';
import { all, type Connection, sqlFor } from './tables.ts';
import type { Tell } from './verify-roots.ts';

interface Name {
  readonly book: string;
  readonly key: string;
  /** Position after which it is in force. */
  readonly after: number;
}

/** An entry of this very book that says it goes on from another. */
export interface Continued {
  readonly position: number;
  readonly source: unknown;
  readonly from: unknown;
  readonly at: unknown;
  readonly newKey: unknown;
}

/** Gives the sentences on the keys, oldest first; none where there has only been one. */
export const checkNames = (db: Connection, entries: readonly Continued[], tell: Tell): string[] => {
  const names = namesOf(db);
  const said = new Map(entries.map((entry) => [entry.source, entry]));
  for (const [index, name] of names.entries()) {
    const before = names[index - 1];
    if (before === undefined) continue;
    const entry = said.get(originOf(name.book));
    said.delete(originOf(name.book));
    if (entry === undefined) {
      tell(name.after + 1, `no entry says that the book ${name.book} goes on here: its name or its key was put in`);
    } else if (entry.position !== name.after + 1 || entry.at !== name.after || entry.from !== before.book) {
      tell(entry.position, 'what the continued book says of the book before it is not what this file keeps of it');
    } else if (entry.newKey !== undefined && entry.newKey !== keyOf(name)) {
      tell(entry.position, 'the key that the continued book names is not the one this file keeps: it was changed');
    }
  }
  for (const [source, { position }] of said) {
    if (source !== names.map(({ book }) => originOf(book))[0])
      tell(position, 'a continued book is said here that this file knows no name and key of: they were taken out');
  }
  return names.length < 2 ? [] : names.map((name, index) => sentenceOn(name, names[index + 1]));
};

const sentenceOn = (name: Name, next: Name | undefined): string =>
  next === undefined
    ? `From position ${name.after + 1} on this file is the book ${name.book}, with a new key that the entry there names; checkpoints of it are signed with ${keyOf(name)}.`
    : `Up to position ${next.after} it was the book ${name.book}, whose key is lost or stayed with another file; checkpoints of that time are signed with ${keyOf(name)}.`;

const keyOf = ({ book, key }: Name): string => verifierKey(originOf(book), Buffer.from(key, 'hex'));

/** Every name the file has gone by, oldest first. */
export const namesOf = (db: Connection): Name[] =>
  all(db, sqlFor.selectFrom('books').select(['book', 'key', 'after']).orderBy('number'));
