/**
 * What was refused in one book goes to the others. Two books may refuse one line with different words and name different
 * cows, so a line may stand in several rows (one a saying, all under one key); and it is remembered of each peer how far
 * what it refused was read and what was refused here was sent.
 */
import { hex64, never, next, STRICT, text } from './format-parts.ts';
import { sqlFor } from './tables.ts';

const COLUMNS = 'number, key, hash, text, problem, pointer, id, cows, mentions, recordedtime, after, door, chain';

export const FOURTH: readonly string[] = [
  'alter table set_aside rename to set_aside_before',
  text(
    sqlFor.schema
      .createTable('set_aside')
      .addColumn('number', 'integer', (column) => column.primaryKey())
      .addColumn('key', 'text', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull().check(hex64('hash')))
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
  `insert into set_aside (${COLUMNS}) select ${COLUMNS} from set_aside_before order by number`,
  'drop table set_aside_before',
  'create index set_aside_of_hash on set_aside (hash)',
  'create index set_aside_of_key on set_aside (key)',
  ...never('set_aside'),
  `create trigger set_aside_are_added_at_the_end before insert on set_aside
   when new.number is not ${next('set_aside', 'number')}
   begin select raise(abort, 'set_aside are added at the end, one after the other'); end`,
  `create trigger set_aside_keys_are_given_once before insert on set_aside
   when exists (select 1 from set_aside where hash = new.hash and key <> new.key)
     or exists (select 1 from set_aside where key = new.key and hash <> new.hash)
   begin select raise(abort, 'set_aside are added once: one key a line'); end`,
  `create trigger set_aside_are_added_once before insert on set_aside
   when exists (
     select 1 from set_aside where hash = new.hash and problem = new.problem and pointer is new.pointer and id is new.id
       and cows = new.cows and mentions = new.mentions)
   begin select raise(abort, 'set_aside are added once'); end`,
  'alter table peers add column refused_read integer not null default 0',
  `alter table peers add column refused_chain text not null default ''`,
  'alter table peers add column refused_sent integer not null default 0',
];
