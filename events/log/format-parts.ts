/** What the steps of several formats are made of: Kysely's SQL as text, and the guards of tables that only grow. */
import { type Compilable, sql } from 'kysely';

export const STRICT = sql`strict`;
export const text = (query: Compilable): string => query.compile().sql;

/**
 * Rows are added at the end and stay. Insert is guarded too, since REPLACE deletes without asking the delete trigger
 * on a connection that has not switched recursive triggers on: a number that is not the next, or content that is
 * there already, is refused before anything is replaced.
 */
export const appendOnly = (table: string, number: string, unique: readonly string[]): string[] => [
  ...never(table),
  `create trigger ${table}_are_added_at_the_end before insert on ${table}
   when new.${number} is not ${next(table, number)}
   begin select raise(abort, '${table} are added at the end, one after the other'); end`,
  `create trigger ${table}_are_added_once before insert on ${table}
   when ${isThere(table, unique)}
   begin select raise(abort, '${table} are added once'); end`,
];

export const never = (table: string): string[] => [
  `create trigger ${table}_are_never_changed before update on ${table}
   begin select raise(abort, '${table} are never changed'); end`,
  `create trigger ${table}_are_never_removed before delete on ${table}
   begin select raise(abort, '${table} are never removed'); end`,
];

export const next = (table: string, number: string): string => `(select coalesce(max(${number}), 0) + 1 from ${table})`;
export const isThere = (table: string, unique: readonly string[]): string =>
  `exists (select 1 from ${table} where ${unique.map((column) => `${column} = new.${column}`).join(' and ')})`;

export const hex64 = (column: string) => sql`length(${sql.ref(column)}) = 64`;
