/** A form that was saved before, told from one that says something else: the first is answered again, the second refused. */
import { z } from 'zod';
import { canonicalJson } from '../../../shared/fingerprint.ts';
import type { Desk } from '../ask.ts';
import { type Draft, idOf } from '../saving.ts';

const stored = z.object({ type: z.string(), subject: z.string().optional(), data: z.unknown() });

const saysOf = (type: string, subject: string | undefined, data: unknown): string =>
  canonicalJson(JSON.parse(JSON.stringify({ type, subject, data })));

/** `no`: nothing of it stands in the book. `same`: all of it does. `other`: the saving's name was used for something else. */
export const savedBefore = (desk: Desk, saving: string, drafts: readonly Draft[]): 'no' | 'same' | 'other' => {
  const rows = drafts.map((_, index) => desk.book.find(idOf(saving, index))[0]);
  const unused = rows.length === 0 || rows[0] === undefined;
  if (unused) return 'no';
  const same = drafts.every(({ type, subject, data }, index) => {
    const row = rows[index];
    const was = row === undefined ? undefined : stored.safeParse(JSON.parse(row.entry));
    return (
      was?.success === true && saysOf(was.data.type, was.data.subject, was.data.data) === saysOf(type, subject, data)
    );
  });
  return same && desk.book.find(idOf(saving, drafts.length)).length === 0 ? 'same' : 'other';
};

export const SAVED_ALREADY =
  'This form was saved already, and now says something else. What was saved then stands; look at it, and save here again if this is what you want';
