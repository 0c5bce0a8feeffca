/**
 * What holds a cow because of another that she may be as well: one was entered under the official number of the
 * other, who was there. Until that is settled what holds the one holds both, and nothing of the one frees the other.
 */
import type { Instant } from '../shared/instant.ts';
import { type Because, because } from './because.ts';
import { numberAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import type { CowMoment } from './moment.ts';

interface Piece {
  readonly began: Instant;
  readonly end: Instant | null;
  readonly because: Because;
}

/** `own`: what holds a cow by herself. That she stands dry among milkers says nothing of where another stands. */
export const withOthers = <P extends Piece>(
  file: CowFile,
  moment: CowMoment,
  key: 'hold.may-be-her' | 'meat.may-be-her',
  own: (file: CowFile, moment: CowMoment) => readonly P[],
): readonly P[] => {
  const hers = own(file, moment);
  if (file.others.length === 0) return hers;
  return [
    ...hers,
    ...file.others.flatMap((other) =>
      own(other, moment)
        .filter((piece) => piece.because.rule !== 'R-24')
        .map((piece) => {
          const number = numberAt(other.cow, moment.windowEnd);
          const values = { number, how: 'one-official-number', about: aboutOf(piece.because) } as const;
          return { ...piece, because: because('R-25', key, values, [...piece.because.entries, other.animal.key]) };
        }),
    ),
  ];
};

/** What holds her, in a word: the medicine, else the kind of entry. */
const aboutOf = (reason: Because): string => {
  if ('medicine' in reason.values) return reason.values.medicine;
  if ('about' in reason.values) return reason.values.about;
  return reason.key.startsWith('hold.fresh') ? 'calving' : 'milk-hold';
};
