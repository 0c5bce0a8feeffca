/**
 * The formats a book's file has had, oldest first. A format, once released, never changes: the next one is a step
 * appended here, and `open-file.ts` takes an older book through the steps it lacks.
 */
import { sql } from 'kysely';
import { COLUMNS_IN_SQL } from './columns.ts';
import { FOURTH } from './format-4.ts';
import { appendOnly, hex64, isThere, never, next, STRICT, text } from './format-parts.ts';
import { sqlFor } from './tables.ts';

export interface Format {
  readonly format: number;
  /** SQL statements that lead here from the format before. */
  readonly steps: readonly string[];
}

/** Marks the file as Byrebook's own in SQLite's header ("Byre"). */
export const APPLICATION_ID = 0x42797265;

const HEAD_GOES_ALONG = `create trigger head_goes_with_the_entries before update on head
   when new.size is not (select coalesce(max(position), 0) from entries) or new.size < old.size
     or new.recorded < old.recorded
   begin select raise(abort, 'the head goes with the entries and never back'); end`;

const from = (path: string) => sql`json_extract(entry, ${sql.lit(path)})`;

const FIRST: readonly string[] = [
  text(
    sqlFor.schema
      .createTable('entries')
      .addColumn('position', 'integer', (column) => column.primaryKey())
      .addColumn('entry', 'text', (column) => column.notNull())
      .addColumn('content', 'text', (column) => column.notNull().check(hex64('content')))
      .addColumn('leaf', 'text', (column) => column.notNull().check(hex64('leaf')))
      .addColumn('id', 'text', (column) => column.generatedAlwaysAs(from('$.id')).notNull())
      .addColumn('type', 'text', (column) => column.generatedAlwaysAs(from('$.type')).notNull())
      // An official number may be written with spaces; a barn number has none.
      .addColumn('subject', 'text', (column) =>
        column.generatedAlwaysAs(sql`replace(json_extract(entry, '$.subject'), ' ', '')`),
      )
      .addUniqueConstraint('one_id_and_content', ['id', 'content'])
      .modifyEnd(STRICT),
  ),
  'create index entries_of_cow on entries (subject) where subject is not null',
  `create index strikes_of_entry on entries (json_extract(entry, '$.data.entry')) where type = 'entry-struck'`,
  ...appendOnly('entries', 'position', ['id', 'content']),
  text(
    sqlFor.schema
      .createTable('set_aside')
      .addColumn('number', 'integer', (column) => column.primaryKey())
      .addColumn('key', 'text', (column) => column.notNull().unique())
      .addColumn('hash', 'text', (column) => column.notNull().unique().check(hex64('hash')))
      .addColumn('text', 'text', (column) => column.notNull())
      .addColumn('problem', 'text', (column) => column.notNull())
      .addColumn('pointer', 'text')
      .addColumn('id', 'text')
      .addColumn('cows', 'text', (column) => column.notNull())
      .addColumn('mentions', 'text', (column) => column.notNull())
      .addColumn('recordedtime', 'text', (column) => column.notNull())
      .addColumn('after', 'integer', (column) => column.notNull())
      .addColumn('door', 'text')
      .addColumn('chain', 'text', (column) => column.notNull().check(hex64('chain')))
      .modifyEnd(STRICT),
  ),
  ...appendOnly('set_aside', 'number', ['hash']),
  `create trigger set_aside_keys_are_given_once before insert on set_aside
   when exists (select 1 from set_aside where key = new.key)
   begin select raise(abort, 'set_aside are added once'); end`,
  text(
    sqlFor.schema
      .createTable('papers')
      .addColumn('number', 'integer', (column) => column.primaryKey())
      .addColumn('hash', 'text', (column) => column.notNull().unique().check(hex64('hash')))
      .addColumn('bytes', 'blob', (column) => column.notNull())
      .modifyEnd(STRICT),
  ),
  ...appendOnly('papers', 'number', ['hash']),
  text(
    sqlFor.schema
      .createTable('books')
      .addColumn('number', 'integer', (column) => column.primaryKey())
      .addColumn('book', 'text', (column) => column.notNull().unique())
      .addColumn('key', 'text', (column) => column.notNull().check(hex64('key')))
      .addColumn('after', 'integer', (column) => column.notNull())
      .modifyEnd(STRICT),
  ),
  ...appendOnly('books', 'number', ['book']),
  text(
    sqlFor.schema
      .createTable('head')
      .addColumn('one', 'integer', (column) => column.primaryKey().check(sql`one = 1`))
      .addColumn('size', 'integer', (column) => column.notNull())
      .addColumn('peaks', 'text', (column) => column.notNull())
      .addColumn('root', 'text', (column) => column.notNull().check(hex64('root')))
      .addColumn('recorded', 'integer', (column) => column.notNull())
      .addColumn('chain', 'text', (column) => column.notNull())
      .addColumn('checkpoint', 'text', (column) => column.notNull())
      .addColumn('farm', 'text')
      .addColumn('rehearsal', 'integer')
      .modifyEnd(STRICT),
  ),
  `create trigger head_is_never_removed before delete on head
   begin select raise(abort, 'the head is never removed'); end`,
  `create trigger head_is_made_once before insert on head
   when exists (select 1 from head)
   begin select raise(abort, 'the head is made once'); end`,
  HEAD_GOES_ALONG,
  `create trigger head_keeps_its_farm before update on head
   when (old.farm is not null and new.farm is not old.farm)
     or ((old.rehearsal is null) <> (new.rehearsal is null))
   begin select raise(abort, 'a book stays with its farm, and a rehearsal a rehearsal'); end`,
];

/** Devices and peers: what the server and the sync client remember. None of it is part of the log. */
const SECOND: readonly string[] = [
  text(
    sqlFor.schema
      .createTable('devices')
      .addColumn('number', 'integer', (column) => column.primaryKey())
      .addColumn('id', 'text', (column) => column.notNull().unique())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('role', 'text', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull().check(hex64('hash')))
      .addColumn('made', 'text', (column) => column.notNull())
      .addColumn('revoked', 'text')
      .modifyEnd(STRICT),
  ),
  'create unique index devices_in_use on devices (name) where revoked is null',
  `create trigger devices_are_never_removed before delete on devices
   begin select raise(abort, 'devices are never removed, only revoked'); end`,
  `create trigger devices_are_only_revoked before update on devices
   when new.number <> old.number or new.id <> old.id or new.name <> old.name or new.role <> old.role
     or new.hash <> old.hash or new.made <> old.made or old.revoked is not null or new.revoked is null
   begin select raise(abort, 'a device is revoked once and not changed otherwise'); end`,
  text(
    sqlFor.schema
      .createTable('peers')
      .addColumn('book', 'text', (column) => column.primaryKey())
      .addColumn('key', 'text', (column) => column.notNull())
      .addColumn('size', 'integer', (column) => column.notNull())
      .addColumn('peaks', 'text', (column) => column.notNull())
      .addColumn('sent', 'integer', (column) => column.notNull())
      .addColumn('resend', 'integer', (column) => column.notNull())
      .modifyEnd(STRICT),
  ),
  text(
    sqlFor.schema
      .createTable('peer_addresses')
      .addColumn('address', 'text', (column) => column.primaryKey())
      .addColumn('book', 'text', (column) => column.notNull())
      .modifyEnd(STRICT),
  ),
];

/**
 * Columns that are written once instead of worked out of the text again for every index and guard: recording is several
 * times faster. `verify` holds them against the text. The guard against a second entry of one id and content goes by the
 * index on the id, so no index carries the content hash, and REPLACE has no constraint left but the position to replace by.
 */
const THIRD: readonly string[] = [
  'drop trigger head_goes_with_the_entries',
  'alter table entries rename to entries_before',
  text(
    sqlFor.schema
      .createTable('entries')
      .addColumn('position', 'integer', (column) => column.primaryKey())
      .addColumn('entry', 'text', (column) => column.notNull())
      .addColumn('content', 'text', (column) => column.notNull().check(hex64('content')))
      .addColumn('leaf', 'text', (column) => column.notNull().check(hex64('leaf')))
      .addColumn('id', 'text', (column) => column.notNull())
      .addColumn('subject', 'text')
      .addColumn('strikes', 'text')
      .modifyEnd(STRICT),
  ),
  `insert into entries (position, entry, content, leaf, id, subject, strikes)
   select position, entry, content, leaf, ${COLUMNS_IN_SQL} from entries_before order by position`,
  'drop table entries_before',
  'create index entries_of_id on entries (id)',
  'create index strikes_of_entry on entries (strikes) where strikes is not null',
  // Where each cow's entries stand, up to a position; it follows by thousands of entries at a time (`cow-entries.ts`).
  `create table cow_entries (subject text not null, position integer not null, primary key (subject, position)) strict, without rowid`,
  'create table cow_entries_up_to (one integer primary key check (one = 1), position integer not null) strict',
  `insert into cow_entries (subject, position)
   select subject, position from entries where subject is not null order by subject, position`,
  'insert into cow_entries_up_to (one, position) select 1, coalesce(max(position), 0) from entries',
  ...never('cow_entries'),
  `create trigger cow_entries_up_to_is_made_once before insert on cow_entries_up_to
   when exists (select 1 from cow_entries_up_to)
   begin select raise(abort, 'how far the cows are listed is made once'); end`,
  `create trigger cow_entries_up_to_is_never_removed before delete on cow_entries_up_to
   begin select raise(abort, 'how far the cows are listed: it is made once and never removed'); end`,
  `create trigger cow_entries_up_to_goes_on before update on cow_entries_up_to
   when new.position < old.position or new.position > (select coalesce(max(position), 0) from entries)
   begin select raise(abort, 'how far the cows are listed goes with the entries and never back'); end`,
  ...never('entries'),
  `create trigger entries_are_added_once before insert on entries
   when new.position is not ${next('entries', 'position')} or ${isThere('entries', ['id', 'content'])}
   begin select raise(abort, 'entries are added once, at the end, one after the other'); end`,
  HEAD_GOES_ALONG,
];

export const FORMATS: readonly Format[] = [
  { format: 1, steps: FIRST },
  { format: 2, steps: SECOND },
  { format: 3, steps: THIRD },
  { format: 4, steps: FOURTH },
];
