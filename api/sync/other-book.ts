/** The other book as its server shows it: what can be asked of it, each answer parsed. Says nothing of whether to believe it. */
import { z } from 'zod';
import type { Book } from '../../events/book.ts';
import { type PageEntry, readPage } from '../../events/log-page.ts';
import type { Refusal } from '../../events/refusal.ts';
import { instantText } from '../../shared/instant.ts';
import { BATCH } from '../server/push-body.ts';
import { carriedSchema, receipt, receiptsSchema, refusedPage, standing } from '../server/schemas.ts';
import { type Ask, askerOf, type Patience } from './ask.ts';
import { Hitch } from './hitch.ts';

/** A newer server may say more: further fields are passed over. */
const standingSaid = z.looseObject(standing.shape);
const receiptsSaid = z.looseObject({ ...receiptsSchema.shape, receipts: z.array(z.looseObject(receipt.shape)) });
const continuationSaid = z.looseObject({
  oldSize: z.number(),
  oldRoot: z.string(),
  size: z.number(),
  root: z.string(),
  path: z.array(z.string()),
});

/** What each refusal is, is asked at the door for them (`refused-elsewhere.ts`): one that is broken spoils no other. */
const refusedSaid = z.looseObject({
  ...refusedPage.shape,
  number: z.number().int().min(0),
  last: z.number().int().min(0),
  refused: z.array(z.unknown()),
});
const carriedSaid = z.looseObject({
  ...carriedSchema.shape,
  receipts: z.array(z.looseObject({ outcome: z.string() })),
});

export type RefusedSaid = z.infer<typeof refusedSaid>;
export type CarriedSaid = z.infer<typeof carriedSaid>;
export type StandingSaid = z.infer<typeof standingSaid>;
export type ReceiptsSaid = z.infer<typeof receiptsSaid>;
export type ContinuationSaid = z.infer<typeof continuationSaid>;

export interface Page {
  readonly book: string;
  readonly entries: readonly PageEntry[];
  /** Characters that came. */
  readonly length: number;
}

export interface OtherBook {
  readonly address: string;
  readonly standing: () => Promise<StandingSaid>;
  /** Undefined where its log is not that long. */
  readonly continuation: (from: number, to: number) => Promise<ContinuationSaid | undefined>;
  /** Entries behind a position, in order; at least one where there are any. `book` is who answered. */
  readonly page: (after: number) => Promise<Page>;
  /** `texts`: stored entries. */
  readonly push: (texts: readonly string[], from: Book) => Promise<ReceiptsSaid>;
  /** What it refused behind a number. `beyond`: there are not so many. `older`: a book of that version has no such pages. */
  readonly refused: (after: number) => Promise<RefusedSaid | 'beyond' | 'older'>;
  readonly carry: (refusals: readonly Refusal[], from: Book) => Promise<CarriedSaid>;
  /** Whether it takes the token's word as another book's. Sends nothing. */
  readonly takesBooks: () => Promise<boolean>;
}

const LONGEST_PAGE = 1_000;
const JSON_ANSWER = { type: 'application/json', read: (text: string): unknown => JSON.parse(text) };

export const otherBookAt = (address: string, token: string, patience?: Patience): OtherBook => {
  const ask: Ask = askerOf(address, token, patience);
  const noBook = (): never => {
    throw new Hitch(`${address} does not answer as a book does; check the address, and that its version is not older`);
  };
  const asBook = <T>(schema: z.ZodType<T>, value: unknown): T => {
    const read = schema.safeParse(value);
    return read.success ? read.data : noBook();
  };
  return {
    address,
    standing: async () => asBook(standingSaid, (await ask('/sync/book', JSON_ANSWER)).value),
    continuation: async (from, to) => {
      try {
        const { value } = await ask(`/sync/continuation?from=${from}&to=${to}`, JSON_ANSWER);
        return asBook(continuationSaid, value);
      } catch (thrown) {
        if (thrown instanceof Hitch && thrown.problem === 'cannot-answer') return undefined;
        throw thrown;
      }
    },
    page: async (after) => {
      // Over a bad line a shorter page gets through where a long one breaks off each time.
      const path = (attempt: number) => `/sync/pull?after=${after}&limit=${LONGEST_PAGE >> Math.min(attempt * 2, 8)}`;
      const read = (text: string) => ({ entries: readPage(text), length: text.length });
      const { value, headers } = await ask(path, { type: BATCH, read });
      const { entries = noBook(), length } = value;
      return { book: headers.get('byrebook-book') ?? '', entries, length };
    },
    push: async (texts, from) => {
      const headers = {
        'content-type': BATCH,
        'byrebook-farm': from.farmId ?? '',
        'byrebook-book': from.bookId,
        'byrebook-time': instantText(from.clock.now()),
      };
      const { value } = await ask('/sync/push', {
        ...JSON_ANSWER,
        method: 'POST',
        headers,
        body: `[${texts.join(',')}]`,
      });
      const answer = asBook(receiptsSaid, value);
      if (answer.receipts.length === texts.length) return answer;
      throw new Hitch(`${address} gave ${answer.receipts.length} receipts for ${texts.length} entries; sync again`);
    },
    refused: async (after) => {
      const path = (attempt: number) =>
        `/sync/set-aside?after=${after}&limit=${LONGEST_PAGE >> Math.min(attempt * 2, 8)}`;
      try {
        return asBook(refusedSaid, (await ask(path, JSON_ANSWER)).value);
      } catch (thrown) {
        if (!(thrown instanceof Hitch)) throw thrown;
        if (thrown.status === 404) return 'older';
        if (thrown.problem === 'cannot-answer') return 'beyond';
        throw thrown;
      }
    },
    carry: async (refusals, from) => {
      const headers = {
        'content-type': 'application/json',
        'byrebook-farm': from.farmId ?? '',
        'byrebook-book': from.bookId,
      };
      const body = JSON.stringify(refusals);
      const { value } = await ask('/sync/set-aside', { ...JSON_ANSWER, method: 'POST', headers, body });
      const answer = asBook(carriedSaid, value);
      if (answer.receipts.length === refusals.length) return answer;
      throw new Hitch(
        `${address} gave ${answer.receipts.length} receipts for ${refusals.length} refused lines; sync again`,
      );
    },
    takesBooks: async () => {
      // A token of a book must say whose it is before it may say anything; one of a device need not.
      try {
        await ask('/sync/push', { ...JSON_ANSWER, method: 'POST', headers: { 'content-type': BATCH }, body: '[]' });
        return false;
      } catch (thrown) {
        if (thrown instanceof Hitch && thrown.problem === 'not-valid') return true;
        throw thrown;
      }
    },
  };
};
