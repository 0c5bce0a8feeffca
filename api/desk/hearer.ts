/**
 * Who hears what the desk says: the language of the request that is being answered, known to every page drawn for it
 * without being handed from one to the next.
 */
import { AsyncLocalStorage } from 'node:async_hooks';
import { type Language, spokenOf } from '../../print/words.ts';

export interface Hearer {
  /** BCP 47, of a language that has a dictionary. */
  readonly tag: string;
  /** Where to come back to in another language; absent where the page answers a form, and coming back would lose what was typed. */
  readonly page?: string | undefined;
}

const hearers = new AsyncLocalStorage<Hearer>();

/** Does the work, awaited parts and all, for this hearer. */
export const speakTo = <T>(hearer: Hearer, work: () => T): T => hearers.run(hearer, work);

/** English where nobody asks. */
export const hearer = (): Hearer => hearers.getStore() ?? { tag: 'en' };

export const spokenNow = (): Language => spokenOf(hearer().tag) ?? 'en';
