/** Holds that no treatment stands behind, as withdrawal events: what a person set, a positive test, fresh milk, an entry set aside. */
import type { EntryOf } from '../../events/entry.ts';
import type { HoldPiece } from '../../projections/hold-piece.ts';
import { milkHoldPieces } from '../../projections/milk-hold.ts';
import { instantText } from '../../shared/instant.ts';
import { identifierOf, partId } from './names.ts';
import { eventOf, metaOf, modifiedBy, type Outgoing } from './outgoing.ts';
import { given, type Resource } from './resource.ts';

const WITHDRAWAL = 'icarWithdrawalEventResource';

/** The pieces of every cow that stand for an entry of their own, by that entry. */
export const holdsByEntry = (out: Outgoing): ReadonlyMap<string, HoldPiece> => {
  const keys = new Set(['hold.set-by-person', 'hold.residue-positive', 'hold.fresh', 'hold.fresh-not-set']);
  const pieces = out.known.files.flatMap((file) => milkHoldPieces(file, out.moment, []));
  return new Map(
    pieces
      .filter((piece) => keys.has(piece.because.key))
      .flatMap((piece) => {
        const [entry] = piece.because.entries;
        return entry === undefined ? [] : [[entry, piece] as const];
      }),
  );
};

const endOf = (piece: HoldPiece | undefined): Record<string, string> =>
  piece?.end == null ? {} : { endDateTime: instantText(piece.end) };

/** A hold under a number that two cows bore, or none, has no end here: nobody can say which lifting was hers. */
export const milkHoldOf = (out: Outgoing, entry: EntryOf<'milk-hold'>, piece: HoldPiece | undefined): Resource => {
  const certain = out.cows.has(entry) ? piece : undefined;
  const event = eventOf(out, entry, WITHDRAWAL, {
    productType: 'Milk',
    ...endOf(certain),
    remark: entry.data.reason,
  });
  return { ...event, meta: modifiedBy(out, event.meta, certain?.because.entries ?? []) };
};

export const residueHoldOf = (
  out: Outgoing,
  entry: EntryOf<'residue-test'>,
  piece: HoldPiece | undefined,
): Resource[] => {
  if (entry.data.of !== 'cow' || entry.data.result !== 'positive') return [];
  const certain = out.cows.has(entry) ? piece : undefined;
  const event = eventOf(out, entry, WITHDRAWAL, {
    eventDateTime: entry.data.sampledAt,
    productType: 'Milk',
    ...endOf(certain),
    remark: 'residue test positive',
  });
  return [{ ...event, meta: modifiedBy(out, event.meta, certain?.because.entries ?? []) }];
};

/** Fresh milk, as the farm's own rule has it: for whoever reads a calving without that rule. */
export const freshHoldOf = (
  out: Outgoing,
  entry: EntryOf<'calving'> | EntryOf<'abortion'> | EntryOf<'cow-entered'>,
  piece: HoldPiece | undefined,
): Resource[] => {
  if (piece === undefined) return [];
  const event = eventOf(
    out,
    entry,
    WITHDRAWAL,
    { eventDateTime: instantText(piece.began), productType: 'Milk', ...endOf(piece), remark: 'fresh milk' },
    'fresh',
  );
  return [{ ...event, meta: modifiedBy(out, event.meta, piece.because.entries) }];
};

/** What was set aside holds milk and meat of the cows it may concern, and without end for whoever reads this. */
export const asideHolds = (out: Outgoing): Resource[] =>
  out.known.asides.flatMap((aside) =>
    aside.cows.flatMap((cow) =>
      (['Milk', 'Meat'] as const).map((productType): Resource => {
        const part = productType === 'Milk' ? 'milk-hold' : 'meat-hold';
        const sourceId = partId(aside.key, part, cow);
        const recorded = instantText(aside.recordedAt);
        return {
          resourceType: WITHDRAWAL,
          meta: { source: out.source, sourceId, modified: recorded, created: recorded },
          id: sourceId,
          eventDateTime: recorded,
          animal: identifierOf(cow),
          productType,
          ...given({ remark: `an entry was set aside: ${aside.problem}` }),
        };
      }),
    ),
  );

export const visitOf = (out: Outgoing, entry: EntryOf<'milk-record'>): Resource[] => {
  const { milking, kg, minutes, peakFlow } = entry.data;
  const start = out.moment.schedule.find(milking)?.start ?? entry.at;
  return [
    {
      ...eventOf(out, entry, 'icarMilkingVisitEventResource', {
        milkingStartingDateTime: instantText(start),
        milkingDuration: minutes === undefined ? undefined : { unitCode: 'MIN', value: minutes },
        milkingMilkWeight: { unitCode: 'KGM', value: kg },
        milkCharacteristics:
          peakFlow === undefined ? undefined : [{ characteristic: 'MAXFLWR', value: String(peakFlow) }],
      }),
      meta: metaOf(out, entry),
    },
  ];
};
