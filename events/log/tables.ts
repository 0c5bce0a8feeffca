/**
 * The tables of a book, typed, and the way to run Kysely's queries on it at once: Kysely writes the SQL, the one
 * open connection runs it, so nothing awaits inside a transaction. The appender has prepared statements of its own.
 */
import type Database from 'better-sqlite3';
import { type Compilable, DummyDriver, Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler } from 'kysely';

export interface Tables {
  /** The log. `entry` is what was said; the last three are read from it for look-ups (`columns.ts`, format 3). */
  readonly entries: {
    readonly position: number;
    readonly entry: string;
    readonly content: string;
    readonly leaf: string;
    readonly id: string;
    readonly subject: string | null;
    readonly strikes: string | null;
  };
  /**
   * What was refused at a door, exactly as said. A line has a row for each saying of a book that adds something to
   * the others: another cow, other words (format 4).
   */
  readonly set_aside: {
    readonly number: number;
    /** Under which it was first kept here; which key it goes by stands in `set-aside-key.ts`. */
    readonly key: string;
    /** SHA-256 of `text`: the same line said the same way again adds nothing. */
    readonly hash: string;
    readonly text: string;
    readonly problem: string;
    readonly pointer: string | null;
    readonly id: string | null;
    /** JSON array of cow numbers read in it. */
    readonly cows: string;
    /** JSON array of the entry ids it names, whose cows it may concern too. */
    readonly mentions: string;
    readonly recordedtime: string;
    /** The book's last position when it was set aside. */
    readonly after: number;
    /** The source it was said by, or the peer it came through, where known. */
    readonly door: string | null;
    /** SHA-256 over the row before and this one. */
    readonly chain: string;
  };
  /** Printed papers, by the hash of their bytes. */
  readonly papers: { readonly number: number; readonly hash: string; readonly bytes: Uint8Array };
  /** The names this file has gone by: a copy or a restored backup goes on under a new one. The last is in force. */
  readonly books: {
    readonly number: number;
    readonly book: string;
    /** Ed25519, 64 hex digits. */
    readonly key: string;
    /** Position after which it is in force. */
    readonly after: number;
  };
  /** One row, moved with every append in the same transaction. */
  readonly head: {
    readonly one: number;
    readonly size: number;
    /** JSON array of the compact range's hashes. */
    readonly peaks: string;
    readonly root: string;
    /** The latest recorded time, in milliseconds. */
    readonly recorded: number;
    /** The chain value of the last row set aside. */
    readonly chain: string;
    /** The last signed checkpoint; empty while none could be signed. */
    readonly checkpoint: string;
    readonly farm: string | null;
    /** The rehearsal's clock in milliseconds; null in a real book. */
    readonly rehearsal: number | null;
  };
  /** Who may connect (format 2). Of a token only its hash is kept. */
  readonly devices: {
    readonly number: number;
    /** Stands in the token, so that it is found without trying all. */
    readonly id: string;
    readonly name: string;
    readonly role: string;
    /** SHA-256 of the token's secret part. */
    readonly hash: string;
    /** RFC 3339. */
    readonly made: string;
    readonly revoked: string | null;
  };
  /** Books that this one has synced with as a client, and how far (format 2). */
  readonly peers: {
    readonly book: string;
    /** The peer's verifier key in the text form of C2SP signed-note. */
    readonly key: string;
    /** How much of the peer's log was read, and the compact range of exactly that. */
    readonly size: number;
    readonly peaks: string;
    /** Own position up to which everything was sent. */
    readonly sent: number;
    /** Own position up to which even what came from the peer is sent again: it may have lost it. */
    readonly resend: number;
    /** How much of what it refused was read, and its chain value there (format 4). */
    readonly refused_read: number;
    readonly refused_chain: string;
    /** Own number up to which what was refused here was sent. */
    readonly refused_sent: number;
  };
  /** Which peer answered at an address the last time (format 2). */
  readonly peer_addresses: { readonly address: string; readonly book: string };
}

/** Writes SQL; has no connection. */
export const sqlFor = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  },
});

export type Connection = Database.Database;

export const all = <Row>(db: Connection, query: Compilable<Row>): Row[] => {
  const { sql, parameters } = query.compile();
  return prepared<Row>(db, sql).all(...parameters);
};

export const first = <Row>(db: Connection, query: Compilable<Row>): Row | undefined => {
  const { sql, parameters } = query.compile();
  return prepared<Row>(db, sql).get(...parameters);
};

export const run = (db: Connection, query: Compilable): void => {
  const { sql, parameters } = query.compile();
  prepared(db, sql).run(...parameters);
};

const statements = new WeakMap<Connection, Map<string, Database.Statement<unknown[]>>>();

/** The statement of that text, prepared once for each connection: the same few texts come with every append. */
export const prepared = <Row>(db: Connection, sql: string): Database.Statement<unknown[], Row> => {
  const known = statements.get(db) ?? new Map<string, Database.Statement<unknown[]>>();
  statements.set(db, known);
  const statement = known.get(sql) ?? db.prepare<unknown[]>(sql);
  known.set(sql, statement);
  return statement as Database.Statement<unknown[], Row>;
};
