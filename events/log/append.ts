/**
 * The only writer of the log. One immediate transaction a batch, or for several batches that wait together: the head is
 * read again inside it, every arrival is recorded or set aside, and the head moves with them, signed once. Either all of
 * that is on the disk or none of it.
 */
import type { Clock } from '../../shared/clock.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { instantText, later } from '../../shared/instant.ts';
import { mentionsIn, type TurnedAway } from '../door.ts';
import type { SaidAnyhow } from '../entry.ts';
import type { Refusal } from '../refusal.ts';
import { canonicalText, entryText, type Halves } from './canonical-write.ts';
import { columnsOf } from './columns.ts';
import { cowEntriesWriter } from './cow-entries.ts';
import { type Head, readHead, signedCheckpoint, writeHead } from './head.ts';
import { entryInserter } from './insert-entry.ts';
import { extend, rootOf } from './merkle.ts';
import { type Refused, setAside, setAsideFrom } from './set-aside.ts';
import type { SigningKey } from './signing-key.ts';
import type { Connection } from './tables.ts';
import { walRoom } from './wal-room.ts';

/** What became of one arrival. */
export interface Receipt {
  readonly id: string | null;
  readonly outcome: 'recorded' | 'already-known' | 'refused';
  readonly position?: number;
  readonly problem?: string;
  readonly pointer?: string;
  /** True where an entry already known has been struck since. */
  readonly struck?: boolean;
  /** Key of what was set aside. */
  readonly key?: string;
}

/** Something to record: past a door, from another book, or by the book itself. */
export interface Recordable {
  readonly said: SaidAnyhow;
  readonly content: string;
  readonly derivedId: boolean;
  /** The canonical text of `said`, where somebody wrote it already. */
  readonly halves?: Halves;
}

export interface Ways {
  /** The peer book it came through. */
  readonly via?: string;
  /** One id with two contents: people's doors refuse it, a peer's entries are both kept (and become a doubt). */
  readonly sameId?: 'refuse' | 'keep-both';
}

export type Arrivals = readonly (Recordable | TurnedAway)[];

/** What one sender said at once, made out when its turn comes. */
export interface Batch<Arrival = Recordable | TurnedAway> {
  /** How many entries it has. */
  readonly entries: number;
  readonly make: () => readonly Arrival[];
}

/** What became of one batch, and how long the log was when its turn was over. */
export interface Taken {
  readonly receipts: Receipt[];
  readonly position: number;
}

/** What became of one refusal of another book. */
export interface Carried {
  readonly outcome: 'set-aside' | 'already-known';
  /** What a `settled` entry names. */
  readonly key: string;
  /** Its number here, where it was new. */
  readonly number?: number;
}

export interface Appender {
  readonly record: (arrivals: Arrivals, ways?: Ways) => Receipt[];
  /** Batches one after the other in one transaction, each made out with those before it in the log. */
  readonly recordEach: (batches: readonly Batch[]) => Taken[];
  /** Sets aside what another book refused; `via` is the peer it came through. */
  readonly carry: (refusals: readonly Refusal[], via: string) => Carried[];
  /** Records the one entry that `make` writes once it knows its position; nothing where it then gives none. */
  readonly recordMade: (make: (position: number) => Recordable | undefined) => Receipt | undefined;
  /** Makes a rehearsal's clock the one it goes on with. */
  readonly rememberClock: () => void;
}

export interface AppenderSettings {
  readonly clock: Clock;
  readonly bookId: string;
  readonly key?: SigningKey;
  /** Gives the farm its id when its first set-up is recorded. */
  readonly newFarmId: () => string;
}

export const appender = (db: Connection, { clock, bookId, key, newFarmId }: AppenderSettings): Appender => {
  const insert = entryInserter(db);
  const listCows = cowEntriesWriter(db);
  const makeRoom = walRoom(db);
  const sameIds = db.prepare<[string], KnownRow>(
    'select position, id, content, subject from entries where id in (select value from json_each(?)) order by position',
  );
  const sameId = db.prepare<[string], KnownRow>(
    'select position, id, content, subject from entries where id = ? order by position',
  );
  const typesOf = db
    .prepare<[string], string>(`select json_extract(entry, '$.type') from entries where id = ?`)
    .pluck();
  const strikeOf = db.prepare<[string], { position: number }>('select position from entries where strikes = ? limit 1');

  /** What the log has already of the ids in a batch, in one look. */
  const knownOf = (arrivals: Arrivals): Map<string, KnownRow[]> => {
    const ids = arrivals.flatMap((arrival) => ('problem' in arrival ? [] : [arrival.said.id]));
    const known = new Map<string, KnownRow[]>();
    const [only] = ids;
    const rows = ids.length === 1 && only !== undefined ? sameId.all(only) : sameIds.all(JSON.stringify(ids));
    for (const row of rows) noted(known, row);
    return known;
  };

  /** Runs `work` on a draft of the next head; writes that head when something came of it. Inside a transaction. */
  const moving = <T>(work: (draft: Draft) => T): T => {
    const head = readHead(db);
    const now = clock.now();
    const recorded = later(now, head.recorded);
    const draft: Draft = {
      size: head.size,
      chain: head.chain,
      farm: head.farm,
      leaves: [],
      recorded,
      recordedText: instantText(recorded),
    };
    const result = work(draft);
    if (draft.size > head.size || draft.chain !== head.chain) {
      const range = extend(head, draft.leaves);
      const root = rootOf(range);
      const moved = draft.size > head.size && key !== undefined;
      listCows(draft.size);
      writeHead(db, {
        ...head,
        ...range,
        root,
        recorded,
        chain: draft.chain,
        farm: draft.farm,
        rehearsal: head.rehearsal === null ? null : now,
        checkpoint: moved ? signedCheckpoint(bookId, range.size, root, key) : head.checkpoint,
      });
    }
    return result;
  };

  const add = (draft: Draft, { said, content, halves }: Recordable, via: string | undefined): Receipt => {
    const position = draft.size + 1;
    const sequence = String(position).padStart(10, '0');
    const recordedtime = draft.recordedText;
    const text =
      halves === undefined
        ? canonicalText({ ...said, sequence, recordedtime, ...(via === undefined ? {} : { via }) })
        : entryText(halves, { sequence, recordedtime, via });
    draft.leaves.push(insert(position, text, content, said));
    draft.size = position;
    if (said.type === 'farm-set-up') draft.farm ??= newFarmId();
    return { id: said.id, outcome: 'recorded', position };
  };

  const refuse = (draft: Draft, refused: Refused): Receipt => {
    const { key: asideKey, chain } = setAside(db, refused, { ...draft, position: draft.size });
    draft.chain = chain;
    return {
      id: refused.id ?? null,
      outcome: 'refused',
      problem: refused.problem,
      ...(refused.pointer === undefined ? {} : { pointer: refused.pointer }),
      key: asideKey,
    };
  };

  /** Why an entry with a new id may not be recorded, if so. */
  const unstrikable = (said: SaidAnyhow): string | undefined => {
    if (said.type !== 'entry-struck') return undefined;
    const struck = mentionsIn(said.data)[0];
    const types = struck === undefined ? [] : typesOf.all(struck);
    if (types.includes('entry-struck')) {
      return `"${struck}" is itself a strike, and strikes can't be struck: enter again what was struck`;
    }
    return types.includes('sheet-issued')
      ? `"${struck}" is a set of sheets that was issued, which can't be struck: issue the milking's sheets again`
      : undefined;
  };

  const take = (
    draft: Draft,
    arrival: Recordable | TurnedAway,
    inLog: Map<string, KnownRow[]>,
    { via, sameId: policy = 'refuse' }: Ways,
  ): Receipt => {
    if ('problem' in arrival) return refuse(draft, { ...arrival, ...(via === undefined ? {} : { door: via }) });
    const { said, content, derivedId } = arrival;
    const turnAway = (problem: string, pointer: string, cows: readonly string[]): Receipt =>
      refuse(draft, {
        text: canonicalJson(said),
        problem,
        pointer,
        id: said.id,
        cows: [...new Set([...(typeof said.subject === 'string' ? [said.subject] : []), ...cows])],
        mentions: mentionsIn(said.data),
        door: via ?? String(said.source),
      });
    const known = inLog.get(said.id) ?? [];
    const same = derivedId ? known[0] : known.find((row) => row.content === content);
    if (same !== undefined) {
      const struck = strikeOf.get(said.id) !== undefined;
      return {
        id: said.id,
        outcome: 'already-known',
        position: same.position,
        ...(struck ? { struck } : {}),
      };
    }
    const other = known[0];
    if (other !== undefined && policy === 'refuse') {
      return turnAway(
        `the id "${said.id}" is taken by another entry (position ${other.position}); give this one an id of its own, or strike that one`,
        '/id',
        known.flatMap(({ subject }) => subject ?? []),
      );
    }
    const problem = policy === 'refuse' ? unstrikable(said) : undefined;
    if (problem !== undefined) return turnAway(problem, '/data/entry', []);
    const receipt = add(draft, arrival, via);
    noted(inLog, { position: draft.size, id: said.id, content, subject: columnsOf(said).subject });
    return receipt;
  };

  const recordAll = (draft: Draft, arrivals: Arrivals, ways: Ways): Receipt[] => {
    const known = knownOf(arrivals);
    return arrivals.map((arrival) => take(draft, arrival, known, ways));
  };
  const recordBatch = db.transaction((arrivals: Arrivals, ways: Ways) =>
    moving((draft) => recordAll(draft, arrivals, ways)),
  );
  const recordBatches = db.transaction((batches: readonly Batch[]) =>
    moving((draft) =>
      batches.map(({ make }): Taken => ({ receipts: recordAll(draft, make(), {}), position: draft.size })),
    ),
  );
  const recordOne = db.transaction((make: (position: number) => Recordable | undefined) =>
    moving((draft) => {
      const made = make(draft.size + 1);
      return made === undefined ? undefined : add(draft, made, undefined);
    }),
  );
  const carryAll = db.transaction((refusals: readonly Refusal[], door: string) =>
    moving((draft) =>
      refusals.map((refusal): Carried => {
        const { key: asideKey, chain, number } = setAsideFrom(db, refusal, { ...draft, position: draft.size, door });
        draft.chain = chain;
        return number === undefined
          ? { outcome: 'already-known', key: asideKey }
          : { outcome: 'set-aside', key: asideKey, number };
      }),
    ),
  );

  return {
    record: (arrivals, ways = {}) => {
      if (arrivals.length === 0) return [];
      makeRoom(arrivals.length);
      return recordBatch.immediate(arrivals, ways);
    },
    recordEach: (batches) => {
      makeRoom(batches.reduce((sum, { entries }) => sum + entries, 0));
      return recordBatches.immediate(batches);
    },
    carry: (refusals, via) => {
      makeRoom(refusals.length);
      return carryAll.immediate(refusals, via);
    },
    recordMade: (make) => recordOne.immediate(make),
    rememberClock: () => {
      const { rehearsal } = readHead(db);
      if (rehearsal === null || rehearsal === clock.now()) return;
      db.transaction(() => writeHead(db, { ...readHead(db), rehearsal: clock.now() })).immediate();
    },
  };
};

interface KnownRow {
  readonly position: number;
  readonly id: string;
  readonly content: string;
  readonly subject: string | null;
}

const noted = (known: Map<string, KnownRow[]>, row: KnownRow): void => {
  const rows = known.get(row.id);
  if (rows === undefined) known.set(row.id, [row]);
  else rows.push(row);
};

/** The next head while its batch is being taken in. */
interface Draft extends Pick<Head, 'recorded'> {
  readonly recordedText: string;
  size: number;
  chain: string;
  farm: string | null;
  readonly leaves: string[];
}
