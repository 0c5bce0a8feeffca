/**
 * The front door of the log. A book is one farm's log in one database file; this opens it and gives every way of
 * writing to it and reading from it. All of it is synchronous: when a call returns, what it says is on the disk.
 */
import fs from 'node:fs';
import path from 'node:path';
import { type Clock, fixedClock } from '../shared/clock.ts';
import { UserProblem } from '../shared/refusal.ts';
import type { Passed, TurnedAway } from './door.ts';
import type { EntryOf } from './entry.ts';
import type { DataOf } from './kinds.ts';
import { appender, type Batch, type Carried, type Receipt } from './log/append.ts';
import { beginBook, idFor } from './log/begin.ts';
import { adoptFarm, type Continuation, continuationOf } from './log/continuation.ts';
import { type Devices, devicesOf } from './log/devices.ts';
import { FORMATS, type Format } from './log/formats.ts';
import { goOn, type WentOn } from './log/go-on.ts';
import { checkpointOf, currentBook, originOf, readHead } from './log/head.ts';
import { verifierKey } from './log/note.ts';
import { openFile } from './log/open-file.ts';
import { isOvertaken } from './log/overtaken.ts';
import { type OwnType, ownEntry } from './log/own-entry.ts';
import { keepPaper, paperOf } from './log/papers.ts';
import { type Peers, peersOf } from './log/peers.ts';
import {
  changesOf,
  firstNotVia,
  type Known,
  type KnownFurther,
  ownEntries,
  readFurther,
  readKnown,
  rowsAfter,
  rowsOfSubjects,
  textsAfter,
  type UpTo,
} from './log/reading.ts';
import { type Attempt, recordEach } from './log/record-each.ts';
import {
  lastRefused,
  type RefusedPage,
  refusedBehind,
  rowsOfId,
  type SetAside,
  setAsideUnder,
} from './log/set-aside-read.ts';
import { readKey, secretFrom } from './log/signing-key.ts';
import type { Connection } from './log/tables.ts';
import { onBook, readOnlyFile } from './log/trouble.ts';
import { type VerifyReport, verifyBook } from './log/verify.ts';
import { isWorthThreads, verifyApart } from './log/verify-apart.ts';
import { namesOf } from './log/verify-names.ts';
import type { Refusal } from './refusal.ts';
import type { Relayed } from './relay.ts';
import type { StoredRow } from './stored.ts';

export type { Batch, Carried, Receipt, Taken } from './log/append.ts';
export type { Device } from './log/devices.ts';
export type { WentOn } from './log/go-on.ts';
export { mayBeWritten } from './log/open-file.ts';
export type { OwnType } from './log/own-entry.ts';
export { NOTHING_SEEN, type Peer } from './log/peers.ts';
export { changesOf, type Known, type UpTo } from './log/reading.ts';
export type { Attempt } from './log/record-each.ts';
export type { RefusedPage } from './log/set-aside-read.ts';
export type { VerifyReport } from './log/verify.ts';

export interface BookOptions {
  readonly clock: Clock;
  /** Makes the book where there is none. With a fixed clock the new book is a rehearsal for ever. */
  readonly create?: boolean;
  readonly readOnly?: boolean;
  /** Tells one rehearsal from another made at the same fixed time. */
  readonly name?: string;
  /** How long to wait for another program's lock; 3,000 when absent. */
  readonly waitMilliseconds?: number;
}

export interface Book {
  readonly path: string;
  /** Made at the first `farm-set-up`; null until then. */
  readonly farmId: string | null;
  /** Changes once where the file is a copy or has lost its key: see `claim`. */
  readonly bookId: string;
  readonly rehearsal: boolean;
  /** The clock to work by: a rehearsal's own fixed time, else the one given. */
  readonly clock: Clock;
  /** The public key in the text form of C2SP signed-note, for whoever checks this book's checkpoints. */
  readonly verifierKey: string;
  readonly head: () => { position: number; root: string };
  /** Another text after every change to what `read` gives: an entry recorded, or one set aside. */
  readonly changes: () => string;
  /** A secret worked out from the book's key for one purpose; undefined where there is no key, or one that everybody knows. */
  readonly secretFor: (purpose: string) => Uint8Array | undefined;
  /**
   * A copied file, or one whose key is gone, takes a new name and key before it writes anything; recording does so by
   * itself. To be called first where the name goes on paper or to a peer.
   */
  readonly claim: () => void;
  /** Every name the file has gone by, oldest first, with the key of that time. */
  readonly names: () => { origin: string; publicKey: Uint8Array; verifierKey: string }[];
  /** Set once it took a new name while it was open. */
  readonly wentOn: WentOn | null;
  /** Records what passed the door and keeps the rest aside, all in one transaction; one receipt each, in order. */
  readonly record: (arrivals: readonly (Passed | TurnedAway)[], via?: string) => Receipt[];
  /**
   * Batches of several senders in one commit, with the same outcomes as one after the other. Each is made out inside it when
   * its turn comes (again, should it fall to be recorded by itself), and one that throws takes none of the others with it.
   */
  readonly recordEach: (batches: readonly Batch<Passed | TurnedAway>[]) => Attempt[];
  /** Records what came from another book of this farm, through the peer named `via`. Adopt the farm first. */
  readonly relay: (arrivals: readonly (Relayed | TurnedAway)[], via: string) => Receipt[];
  /** Takes a farm's id by the first sync; throws a `UserProblem` where this book has another. */
  readonly adoptFarm: (farm: string) => void;
  /** Shows that the first `size` entries continue the first `oldSize`; undefined where there are not so many. */
  readonly continuation: (oldSize: number, size: number) => Continuation | undefined;
  readonly devices: Devices;
  readonly peers: Peers;
  /** Records what the book alone may write. Throws where the data is not of that kind's shape. */
  readonly recordOwn: <T extends OwnType>(type: T, data: DataOf<T>) => { position: number; id: string };
  /**
   * Records a set of sheets, unless another one for its milking was written down behind the position that it was worked out
   * from: then nothing is recorded, and it is to be worked out again.
   */
  readonly recordSet: (set: DataOf<'sheet-issued'>) => { position: number } | undefined;
  /** Everything known up to a position and a recorded time, both included; all of it when neither is given. */
  readonly read: (upTo?: UpTo) => Known;
  /** The same as `read` of all, or up to a position, from what was read before: only what came since is read (`news`). */
  readonly readFurther: (before: Omit<Known, 'entries' | 'root'>, upTo?: Pick<UpTo, 'position'>) => KnownFurther;
  /** Every entry of a kind that books write themselves, in the order of the log, other books' among them. */
  readonly ownEntries: <T extends OwnType>(type: T) => EntryOf<T>[];
  /** Stored rows behind a position, in order. */
  readonly rows: (after: number, limit: number) => StoredRow[];
  /** Their stored texts alone. */
  readonly texts: (after: number, limit: number) => string[];
  /** The first position behind `after` whose entry may have come another way than through that peer. */
  readonly firstNotVia: (after: number, via: string) => number | undefined;
  /** Stored rows about these cow numbers, in position order. */
  readonly entriesOf: (subjects: readonly string[]) => StoredRow[];
  /** Stored rows with this id: none, one, or several where books that synced disagree. */
  readonly find: (id: string) => StoredRow[];
  /** Whether anything was ever refused and set aside here: known without reading the log. */
  readonly hasSetAside: () => boolean;
  /** What was refused at a door and kept under that key, exactly as it was said. */
  readonly setAside: (key: string) => SetAside | undefined;
  /** What was refused, row by row behind a number, as it goes to another book; undefined where there are not so many. */
  readonly refusedBehind: (
    after: number,
    most: { readonly rows: number; readonly characters: number },
  ) => RefusedPage | undefined;
  /** Number and chain value of the last row of what was refused; 0 and the empty text where there is none. */
  readonly lastRefused: () => { readonly number: number; readonly chain: string };
  /** Sets aside what another book of this farm refused, through the peer named `via`. What is known adds nothing. */
  readonly carry: (refusals: readonly Refusal[], via: string) => Carried[];
  /** Keeps a printed paper; gives the SHA-256 of its bytes. */
  readonly keepPaper: (bytes: Uint8Array) => string;
  readonly paper: (hash: string) => Uint8Array | undefined;
  /** The head as a C2SP tlog-checkpoint, signed; `unsigned` stands in place of the signature where there is no key. */
  readonly checkpoint: () => string;
  /** Recomputes everything from the rows. */
  readonly verify: () => VerifyReport;
  /** The same report; of a long log in threads of its own, so that whoever asks something meanwhile need not wait. */
  readonly verifyApart: () => Promise<VerifyReport>;
  readonly close: () => void;
}

/** Opens a book. Throws a `UserProblem` with a sentence for everything that can be wrong with the file or the clock. */
export const openBook = (file: string, options: BookOptions): Book => openBookAs(file, options, FORMATS);

/** As `openBook`, for a program that knows other formats (how upgrades are tried). */
export const openBookAs = (file: string, options: BookOptions, formats: readonly Format[]): Book => {
  const { clock, create = false, readOnly = false, name = 'rehearsal', waitMilliseconds = 3_000 } = options;
  const at = fs.existsSync(file) ? fs.realpathSync(file) : path.resolve(file);
  const begin = (db: Connection) => beginBook(db, at, clock, name);
  const db = openFile(at, { create, readOnly, waitMilliseconds, formats, begin });
  try {
    return onBook(at, () => bookOn(db, at, { clock, readOnly, formats }));
  } catch (error) {
    db.close();
    throw error;
  }
};

const bookOn = (
  db: Connection,
  at: string,
  options: { clock: Clock; readOnly: boolean; formats: readonly Format[] },
): Book => {
  const head = readHead(db);
  const rehearsal = head.rehearsal !== null;
  if (options.clock.fixed && !rehearsal) {
    throw new UserProblem(
      `The book ${at} keeps real time, so its clock can't be fixed; leave --now out. --milking and --known-at look at other times, and a book made with --now is a rehearsal`,
      2,
    );
  }
  const clock = head.rehearsal === null || options.clock.fixed ? options.clock : fixedClock(head.rehearsal);
  let named = nameOf(db, at, clock);
  let wentOn: WentOn | null = null;
  const claim = (): void => {
    if (!named.isCopy) return;
    wentOn = goOn(db, at, clock) ?? null;
    named = nameOf(db, at, clock);
  };
  if (!options.readOnly) named.log.rememberClock();
  const devices = devicesOf(db, () => clock.now());
  const peers = peersOf(db);
  const reading = <A extends readonly unknown[], R>(work: (...args: A) => R) => {
    return (...args: A): R => onBook(at, () => work(...args));
  };
  const writing = <A extends readonly unknown[], R>(work: (...args: A) => R) => {
    return (...args: A): R => {
      if (options.readOnly) throw new UserProblem(readOnlyFile(at));
      return onBook(at, () => {
        claim();
        return work(...args);
      });
    };
  };
  const recordOwn = <T extends OwnType>(type: T, data: DataOf<T>): { position: number; id: string } => {
    const { bookId, log } = named;
    const receipt = log.recordMade(ownEntry({ bookId, rehearsal, clock }, type, data));
    return { position: receipt?.position ?? 0, id: receipt?.id ?? '' };
  };
  const recordSet = (set: DataOf<'sheet-issued'>): { position: number } | undefined => {
    const { bookId, log } = named;
    const make = ownEntry({ bookId, rehearsal, clock }, 'sheet-issued', set);
    const receipt = log.recordMade((position) => (isOvertaken(db, set) ? undefined : make(position)));
    return receipt === undefined ? undefined : { position: receipt.position ?? 0 };
  };
  const verify = reading(() => verifyBook(db, at, options.formats));
  return {
    path: at,
    get farmId() {
      return onBook(at, () => readHead(db).farm);
    },
    get bookId() {
      return named.bookId;
    },
    rehearsal,
    clock,
    get verifierKey() {
      return nameAndKey({ book: named.bookId, key: named.publicKey }).verifierKey;
    },
    head: reading(() => {
      const { size, root } = readHead(db);
      return { position: size, root };
    }),
    changes: reading(() => {
      const { size, root, chain } = readHead(db);
      return changesOf({ position: size, root, chain });
    }),
    secretFor: (purpose) => (rehearsal || named.key === undefined ? undefined : secretFrom(named.key, purpose)),
    claim: writing(() => undefined),
    names: reading(() => namesOf(db).map(nameAndKey)),
    get wentOn() {
      return wentOn;
    },
    record: writing((arrivals, via) => named.log.record(arrivals, via === undefined ? {} : { via })),
    recordEach: writing((batches) => recordEach(named.log, batches, at)),
    relay: writing((arrivals, via) => {
      if (arrivals.length > 0 && readHead(db).farm === null) throw new Error('A book adopts the farm before it relays');
      return named.log.record(arrivals, { via, sameId: 'keep-both' });
    }),
    adoptFarm: writing((farm) => adoptFarm(db, farm)),
    continuation: reading((oldSize, size) => continuationOf(db, oldSize, size)),
    devices: {
      add: writing(devices.add),
      list: reading(devices.list),
      of: reading(devices.of),
      revoke: writing(devices.revoke),
    },
    peers: {
      of: reading(peers.of),
      at: reading(peers.at),
      remember: writing(peers.remember),
      rememberAddress: writing(peers.rememberAddress),
    },
    recordOwn: writing(recordOwn) as Book['recordOwn'],
    recordSet: writing(recordSet),
    read: reading((upTo) => readKnown(db, upTo)),
    readFurther: reading((before, upTo) => readFurther(db, before, upTo)),
    ownEntries: reading((type) => ownEntries(db, type)) as Book['ownEntries'],
    rows: reading((after, limit) => rowsAfter(db, after, limit)),
    texts: reading((after, limit) => textsAfter(db, after, limit)),
    firstNotVia: reading((after, via) => firstNotVia(db, after, via)),
    entriesOf: reading((subjects) => rowsOfSubjects(db, subjects)),
    find: reading((id) => rowsOfId(db, id)),
    hasSetAside: reading(() => readHead(db).chain !== ''),
    setAside: reading((key) => setAsideUnder(db, key)),
    refusedBehind: reading((after, most) => refusedBehind(db, after, most)),
    lastRefused: reading(() => lastRefused(db)),
    carry: writing((refusals, via) => {
      if (refusals.length > 0 && readHead(db).farm === null)
        throw new Error('A book adopts the farm before it carries');
      return named.log.carry(refusals, via);
    }),
    keepPaper: writing((bytes) => keepPaper(db, bytes)),
    paper: reading((hash) => paperOf(db, hash)),
    checkpoint: reading(() => checkpointOf(readHead(db), { book: named.bookId, key: named.publicKey })),
    verify,
    verifyApart: async () => {
      if (!isWorthThreads(onBook(at, () => readHead(db).size))) return verify();
      return verifyApart(at, options.formats).catch(verify);
    },
    close: () => db.close(),
  };
};

const nameAndKey = ({ book, key }: { book: string; key: string }) => {
  const [origin, publicKey] = [originOf(book), Buffer.from(key, 'hex')];
  return { origin, publicKey, verifierKey: verifierKey(origin, publicKey) };
};

/** What the file goes by now, its writer, and whether it must take another name before it writes. */
const nameOf = (db: Connection, at: string, clock: Clock) => {
  const { book: bookId, key: publicKey } = currentBook(db);
  const held = readKey(at, publicKey);
  const rehearsal = readHead(db).rehearsal !== null;
  const log = appender(db, {
    clock,
    bookId,
    newFarmId: () => idFor(rehearsal, `farm of ${bookId}`),
    ...('key' in held ? { key: held.key } : {}),
  });
  const key = 'key' in held ? held.key : undefined;
  return { bookId, publicKey, log, key, isCopy: !('key' in held) && held.because !== 'unusable' };
};
