/** An entry that the book itself writes: who says it, when, and under which id. Recorded like any other. */
import type { Clock } from '../../shared/clock.ts';
import { instantText } from '../../shared/instant.ts';
import { contentOf } from '../door.ts';
import { type DataOf, KINDS } from '../kinds.ts';
import type { Recordable } from './append.ts';
import { idFor } from './begin.ts';
import { originOf } from './head.ts';

export type OwnType = 'sheet-issued' | 'book-continued';

export interface Writer {
  readonly bookId: string;
  readonly rehearsal: boolean;
  readonly clock: Clock;
}

/** Throws where the data is not of that kind's shape. */
export const ownEntry = <T extends OwnType>(
  { bookId, rehearsal, clock }: Writer,
  type: T,
  data: DataOf<T>,
): ((position: number) => Recordable) => {
  const parsed = KINDS[type].schema.parse(data);
  return (position) => {
    const said = {
      specversion: '1.0',
      id: idFor(rehearsal, `${type} ${position} of ${bookId}`),
      source: originOf(bookId),
      type,
      time: instantText(clock.now()),
      author: 'Byrebook',
      data: parsed,
    } as const;
    return { said, content: contentOf(said), derivedId: false };
  };
};
