/** What `sync` says of what was refused: what came and went, or that nothing can, and which cows nobody else holds then. */
import type { Book } from '../../events/book.ts';
import { know } from '../../projections/know.ts';
import { byCowNumber } from '../../shared/cow-number.ts';
import type { RefusedExchanged } from '../sync/refused.ts';
import { plural } from './settings.ts';

/** More numbers than this nobody reads in a line. */
const SHOWN = 30;

export const passage = ({ came, cameCows, went, wentCows }: RefusedExchanged): string[] => {
  const parts = [
    ...(came === 0 ? [] : [`${plural(came, 'refused entry', 'refused entries')} came${ofCows(cameCows)}`]),
    ...(went === 0 ? [] : [`${plural(went, 'refused entry', 'refused entries')} went${ofCows(wentCows)}`]),
  ];
  return parts.length === 0
    ? []
    : [`${parts.join(', ')}: set aside in both books now; until a person settles each, its cows are held in both.`];
};

/** Where the other book is of an older version, what was refused here holds nobody there, and the other way round. */
export const noPassage = (book: Book, { travels }: RefusedExchanged): string[] => {
  if (travels) return [];
  const older =
    'The other book is of an older version, to which what was refused does not travel, and from which it does not come: look there, too, for what it refused. Install this version there, and sync again.';
  // The whole log need not be read to know that nothing was refused.
  if (!book.hasSetAside()) return [older];
  const { entries, asides } = book.read();
  const ours = know(entries, asides).asides.filter(({ key }) => book.setAside(key) !== undefined);
  if (ours.length === 0) return [older];
  const cows = [...new Set(ours.flatMap((aside) => aside.cows))].sort(byCowNumber);
  return [
    `${older}\n${plural(ours.length, 'refused entry stays', 'refused entries stay')} here${ofCows(cows)}: the other book does not know of ${ours.length === 1 ? 'it' : 'them'} and holds nobody for it. Until then enter again what was meant, settle it here, and sync again.`,
  ];
};

const ofCows = (cows: readonly string[]): string => {
  if (cows.length === 0) return '';
  const more = cows.length > SHOWN ? ` and ${(cows.length - SHOWN).toLocaleString('en')} more` : '';
  return ` (cows ${cows.slice(0, SHOWN).join(', ')}${more})`;
};
