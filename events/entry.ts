/**
 * An entry as the folds see it, and the two halves it is made of: what the writer says (`Said`)
 * and what this book adds (`Added`). The envelope is CloudEvents 1.0 in its JSON format.
 */
import type { Instant } from '../shared/instant.ts';
import type { DataOf, EntryType } from './kinds.ts';

/** What the writer says. `time` is RFC 3339 text exactly as written. */
export interface Said {
  readonly specversion: '1.0';
  readonly id: string;
  readonly source: string;
  readonly type: string;
  readonly subject?: string;
  readonly time: string;
  readonly author: string;
  readonly data: unknown;
}

/** What a writer says when another version may have made it: only id and type are sure to be there (`relay.ts`). */
export interface SaidAnyhow {
  readonly id: string;
  readonly type: string;
  readonly source?: unknown;
  readonly subject?: unknown;
  readonly data?: unknown;
}

/** What this book adds when it records: its own order, its own time, and the peer book it came through. */
export interface Added {
  /** Zero-padded to ten digits. */
  readonly sequence: string;
  /** RFC 3339 in UTC; never before the one ahead of it. */
  readonly recordedtime: string;
  readonly via?: string;
}

/** A stored entry of a kind and shape this version knows. */
export interface EntryOf<T extends EntryType> {
  readonly id: string;
  readonly type: T;
  readonly subject?: string;
  /** When it happened. */
  readonly at: Instant;
  readonly author: string;
  readonly source: string;
  readonly data: DataOf<T>;
  /** SHA-256 of the writer's half in canonical JSON; the last tie-break of fold order. */
  readonly content: string;
  /** Sequence number in this book, from 1. */
  readonly position: number;
  readonly recordedAt: Instant;
  readonly via?: string;
}

export type Entry = { [T in EntryType]: EntryOf<T> }[EntryType];

/** A stored envelope that this version cannot use: unknown kind, newer field, strange time. It becomes a doubt. */
export interface Unusable {
  readonly id: string;
  readonly type: string;
  readonly content: string;
  readonly position: number;
  readonly recordedAt: Instant;
  /** Since when it may bear on milk, where that is before it was recorded. */
  readonly since?: Instant;
  readonly problem: string;
  /** Cow numbers it may concern; empty when none can be read. */
  readonly cows: readonly string[];
}

/** Something refused at a door, or stored but unusable: it holds every cow it may concern until settled. */
export interface Aside {
  /** Key that a `settled` entry names. */
  readonly key: string;
  readonly problem: string;
  readonly cows: readonly string[];
  readonly recordedAt: Instant;
  /** Since when it may bear on milk, where that is before it was recorded. */
  readonly since?: Instant;
  /** Id of the entry, where one can be read. */
  readonly id?: string;
  /** Of a kind that is never about a cow, and nothing in it could be a cow's number but a word. */
  readonly ofFarm?: true;
}
