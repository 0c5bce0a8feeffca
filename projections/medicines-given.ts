/** The medicines that were ever given to a cow, as they were written: doses, products of a dry-off, and what she came with. */
import type { Entry } from '../events/entry.ts';
import type { Animal } from './animal.ts';
import { medicineIn } from './medicines.ts';
import { namesEver } from './names-ever.ts';

const medicinesOf = ({ assigned }: Animal): ReadonlySet<string> =>
  new Set(assigned.flatMap((entry) => medicineIn(entry) ?? driedOffWith(entry) ?? []));

const driedOffWith = (entry: Entry): string | undefined =>
  entry.type === 'cow-entered' && entry.data.driedOffWith !== 'none' ? entry.data.driedOffWith : undefined;

export const medicinesGiven = namesEver('medicines given', medicinesOf);
