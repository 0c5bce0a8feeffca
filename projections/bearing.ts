/** What an entry does where its number is not certain to mean a cow: what holds is laid to every door it may be of, what frees to none. */
import type { Entry } from '../events/entry.ts';
import { assertNever } from '../shared/refusal.ts';

/** What an entry does to the tank if it is laid to the wrong cow's door. */
export type Bearing = 'holds' | 'frees' | 'neither';

export const bearingOf = (entry: Entry): Bearing => {
  switch (entry.type) {
    case 'treatment':
    case 'milk-hold':
    case 'calving':
    case 'sort-request':
    case 'group-move': // A dry cow put among the milked ones.
      return 'holds';
    case 'abortion':
      return entry.data.milked === true ? 'holds' : 'neither';
    case 'residue-test':
      return entry.data.result === 'positive' ? 'holds' : 'frees';
    case 'dry-off': // Its product is a dose like any other; one that is not stated is not known.
      return entry.data.product === 'none' ? 'frees' : 'holds';
    case 'milk-hold-lifted':
    case 'course-ended':
    case 'cow-left':
      return 'frees';
    case 'vet-hold-time': // Goes by the treatment it names, wherever that stands.
      return 'holds';
    case 'milk-record':
    case 'service':
    case 'pregnancy-check':
    case 'sort-done':
    case 'number-changed':
    case 'cow-entered':
    case 'farm-set-up':
    case 'medicine-listed':
    case 'medicine-received':
    case 'medicine-disposed':
    case 'head-count':
    case 'milking-finished':
    case 'tank-collection':
    case 'sheet-issued':
    case 'sheet-returned':
    case 'settled':
    case 'book-continued':
    case 'entry-struck':
      return 'neither';
    default:
      return assertNever(entry);
  }
};

/** True for what must be found before milking when nobody bears its number. */
export const holdsMilk = (entry: Entry): boolean => bearingOf(entry) === 'holds' && !MOVES_ONLY.has(entry.type);

const MOVES_ONLY = new Set(['sort-request', 'group-move']);

const NOT_OF_A_COW = new Set(['settled', 'entry-struck']);

/** True for what is laid to a cow's door. */
export const isOfACow = (entry: Entry): entry is Entry & { readonly subject: string } =>
  entry.subject !== undefined && !NOT_OF_A_COW.has(entry.type);

/** True for what can say that something was given: a dose, a dry-off with its product, a cow that came dry. */
export const isGiving = ({ type }: Entry): boolean =>
  type === 'treatment' || type === 'dry-off' || type === 'cow-entered';
