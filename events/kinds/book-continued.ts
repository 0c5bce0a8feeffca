/**
 * First new entry of a copied or restored book, or of one whose key was lost: which book it goes on from, where, and the
 * key that signs from here on. Written by the book alone.
 */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  book: text(60),
  position: z.number().int().min(0),
  root: z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 hex digits'),
  /** The public key that signs from here on, in the text form of C2SP signed-note, under the new book's name. */
  newKey: text(200).optional(),
});

export type BookContinued = z.infer<typeof schema>;

export const bookContinued = kind({
  type: 'book-continued',
  when: 'Recorded by the book when a restored or copied file, or one whose key was lost, goes on as a new book.',
  subject: 'farm',
  bookOnly: true,
  schema,
  example: { book: '0190b6d2-0000-7000-8000-00000000b00c', position: 1841, root: '0'.repeat(64) },
});
