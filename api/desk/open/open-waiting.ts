/** Holds without an end, milk and meat, and what ends each: the vet's times where they can, else the entry that does. */
import type { EntryType } from '../../../events/kinds.ts';
import type { Because, SayingKey } from '../../../projections/because.ts';
import type { Dosing } from '../../../projections/dosing.ts';
import { meatHoldPieces } from '../../../projections/meat-hold.ts';
import type { Moment } from '../../../projections/moment.ts';
import type { Standing } from '../../../projections/standing.ts';
import { standingsAt } from '../../../projections/standings.ts';
import { momentOf } from '../../../projections/views-at.ts';
import type { Tonight } from '../../tonight.ts';
import { askedOf } from '../who.tsx';

/** What ends a hold that has no end yet. */
export type EndedBy = 'the-vet' | EntryType | 'the-farm';

export interface WaitingHold {
  readonly standing: Standing;
  /** Reasons without an end; those of one treatment together. */
  readonly reasons: readonly Because[];
  readonly endedBy: EndedBy;
  /** The treatment that the vet's times would be for. */
  readonly treatment: string | undefined;
}

/** Left out: what a doubt or a thing set aside stands for, and what ends by itself (the next calving, the milkings counted). */
const ENDED_BY: Partial<Record<SayingKey, EndedBy>> = {
  'hold.not-listed': 'the-vet',
  'hold.label-unknown': 'the-vet',
  'hold.not-for-milking-cows': 'the-vet',
  'hold.off-label-no-vet': 'the-vet',
  'hold.off-label-milkings-only': 'the-vet',
  'hold.dry-cow-early': 'the-vet',
  'hold.dry-cow-milked-again': 'the-vet',
  'meat.not-listed': 'the-vet',
  'meat.unknown': 'the-vet',
  'meat.off-label-no-vet': 'the-vet',
  'hold.set-by-person': 'milk-hold-lifted',
  'hold.residue-positive': 'residue-test',
  'hold.fresh-not-set': 'the-farm',
  'hold.entered-unknown': 'cow-entered',
  'meat.entered-unknown': 'cow-entered',
  'hold.dry-cow-not-stated': 'dry-off',
  'hold.no-dry-off': 'dry-off',
  'meat.product-not-stated': 'dry-off',
  'meat.no-dry-off': 'dry-off',
  'hold.dry-in-milked-group': 'group-move',
};

export const waitingHolds = (answer: Tonight): readonly WaitingHold[] => {
  const moment = momentOf(answer.known, askedOf(answer));
  if (moment === undefined) return [];
  const holds = standingsAt(answer.known, moment).flatMap((standing) => holdsOf(standing, moment));
  return [
    ...holds.filter(({ endedBy }) => endedBy === 'the-vet'),
    ...holds.filter(({ endedBy }) => endedBy !== 'the-vet'),
  ];
};

const holdsOf = (standing: Standing, moment: Moment): WaitingHold[] => {
  const meat = meatHoldPieces(standing.file, moment, []).filter((piece) => piece.began <= moment.windowEnd);
  const open = [...standing.running, ...meat].filter((piece) => piece.end === null);
  const holds = new Map<string, WaitingHold>();
  for (const { because } of open) {
    const endedBy = ENDED_BY[because.key];
    if (endedBy === undefined) continue;
    const treatment = endedBy === 'the-vet' ? dosingOf(standing, because)?.last.id : undefined;
    const pile = `${endedBy} ${treatment ?? because.entries.join(' ')}`;
    const have = holds.get(pile);
    holds.set(pile, { standing, endedBy, treatment, reasons: [...(have?.reasons ?? []), because] });
  }
  return [...holds.values()];
};

const dosingOf = ({ file }: Standing, { entries, values }: Because): Dosing | undefined =>
  file.dosings.find(
    (dosing) =>
      (!('medicine' in values) || values.medicine === dosing.medicine) &&
      dosing.doses.some((dose) => entries.includes(dose.id)),
  );
