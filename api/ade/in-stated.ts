/**
 * Withdrawals that treatments state, held against what this book works out from its own labels. A stated end that is later
 * lengthens the hold; one that is earlier never shortens it; one that is not stated is not known, and the label or R-14 governs.
 */
import type { Entry } from '../../events/entry.ts';
import { DAY, type Instant, instantText } from '../../shared/instant.ts';
import type { DosingHold } from './dosing-holds.ts';
import type { Draft, Refused, Stated } from './in-resource.ts';
import { hoursUntil } from './in-treatments.ts';

export interface StatedOutcome {
  /** In the order given; what a longer hold adds to a dose, and milk holds for ends that no dose can carry. */
  readonly drafts: readonly Draft[];
  readonly notes: readonly string[];
  readonly refused: readonly (Refused & { readonly draft: Draft })[];
}

/** `byId`: drafts by the id of the entry they become. */
export const withStated = (byId: ReadonlyMap<string, Draft>, holds: readonly DosingHold[]): StatedOutcome => {
  const changed = new Map(byId);
  const added: Draft[] = [];
  const notes: string[] = [];
  const refused: (Refused & { draft: Draft })[] = [];
  for (const hold of holds) {
    const hers = hold.dosing.doses.filter((dose) => byId.has(dose.id));
    const carrier = hers.at(-1)?.id;
    const draft = carrier === undefined ? undefined : changed.get(carrier);
    if (carrier === undefined || draft === undefined) continue;
    const stated = latestOf(hers.flatMap((dose) => byId.get(dose.id)?.stated ?? []));
    const from = hold.dosing.course?.plannedLast ?? hold.dosing.last.at;
    const cow = draft.subject;
    const { medicine } = hold.dosing;
    const more: Record<string, number> = {};
    if (isLater(stated.milk, hold.milk)) {
      if (draft.type === 'treatment' && stated.milk !== 'open') {
        more.milkHoldHours = Math.max(0, hoursUntil(from, stated.milk));
        if (hold.milk === null && hold.dosing.vet.prescribedBy === undefined) {
          notes.push(
            `cow ${cow}: milk withheld until ${instantText(stated.milk)} for ${medicine}, as ${draft.from.source} says; this book holds her without end until the medicine is listed (medicine-listed) or the vet’s time is recorded (vet-hold-time)`,
          );
        }
      } else added.push(openHold(draft, medicine, stated.milk));
    }
    if (isLater(stated.meat, hold.meat)) {
      if (draft.type === 'treatment' && stated.meat !== 'open')
        more.meatHoldDays = Math.max(0, (stated.meat - from) / DAY);
      else {
        refused.push({
          draft,
          problem: `${draft.from.name}: the meat is withheld ${stated.meat === 'open' ? 'without end' : `until ${instantText(stated.meat)}`} for ${medicine}, longer than this book’s label says; record the vet’s time (vet-hold-time), then settle this`,
          cows: [cow],
        });
      }
    }
    if (Object.keys(more).length > 0) changed.set(carrier, { ...draft, data: { ...draft.data, ...more } });
  }
  return { drafts: [...changed.values(), ...added], notes, refused };
};

const latestOf = (all: readonly Stated[]): Stated => {
  const of = (product: 'milk' | 'meat'): Instant | 'open' | undefined => {
    const ends = all.flatMap((each) => each[product] ?? []);
    if (ends.includes('open')) return 'open';
    return ends.length === 0 ? undefined : (Math.max(...ends.map(Number)) as Instant);
  };
  const milk = of('milk');
  const meat = of('meat');
  return { ...(milk === undefined ? {} : { milk }), ...(meat === undefined ? {} : { meat }) };
};

/** Null: the book holds without end already, so that a date can only help a vet’s word along. */
const isLater = (stated: Instant | 'open' | undefined, computed: Instant | null): stated is Instant | 'open' => {
  if (stated === undefined) return false;
  if (stated === 'open') return computed !== null;
  return computed === null || stated > computed;
};

const openHold = (draft: Draft, medicine: string, end: Instant | 'open'): Draft => ({
  from: draft.from,
  part: draft.part === '' ? 'milk-hold' : `${draft.part}.milk-hold`,
  type: 'milk-hold',
  subject: draft.subject,
  at: draft.at,
  modified: draft.modified,
  data: {
    reason: `${medicine.slice(0, 80)}: milk withheld ${end === 'open' ? 'without an end' : `until ${instantText(end)}`}, as the file says`,
  },
});

/** A draft as the folds see it, before it is recorded. */
export const asEntry = (
  passed: { readonly said: { readonly id: string }; readonly content: string; readonly at: Instant },
  position: number,
  recordedAt: Instant,
): Entry => ({ ...passed.said, at: passed.at, content: passed.content, position, recordedAt }) as unknown as Entry;
