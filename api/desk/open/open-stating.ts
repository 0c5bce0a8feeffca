/** The form that states what an entry left out, filled in so that the rule takes it: which cow, and dated when. */
import type { Entry, EntryOf } from '../../../events/entry.ts';
import type { DryStart } from '../../../projections/stretch.ts';
import { type Instant, later, MINUTE } from '../../../shared/instant.ts';
import type { Zone } from '../../../shared/zone.ts';
import { wallText } from '../wall-time.ts';
import type { WaitingHold } from './open-waiting.ts';

type Fields = Readonly<Record<string, string | number | undefined>>;

const formPath = (type: string, fields: Fields): string => {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(fields)) if (value !== undefined) query.set(name, String(value));
  return `/write/${type}?${query}`;
};

const timed = (zone: Zone, at: Instant): Fields => ({ when: 'time', timeAt: wallText(zone, at) });

/** A form knows minutes: the first that is not before it. */
const nextMinute = (at: Instant): Instant => (Math.ceil(at / MINUTE) * MINUTE) as Instant;

/**
 * The dry-off that states the product. Of a cow that came dry, or stood among the dry ones with no dry-off, it is dated from
 * when the book has her there and before she is in milk again; a dry-off that left it out is entered again at its own time.
 */
export const dryOffPath = ({ standing, reasons }: WaitingHold, behind: Entry | undefined, zone: Zone): string => {
  if (behind === undefined) return formPath('dry-off', { cow: standing.number });
  const cow = behind.subject ?? standing.number;
  if (behind.type === 'dry-off')
    return formPath('dry-off', { cow, group: behind.data.group, ...timed(zone, behind.at) });
  const { dryStarts, stretches } = standing.file.lactations;
  const dry: Pick<DryStart, 'earliest'> | undefined = reasons.some(({ key }) => key.endsWith('not-stated'))
    ? dryStarts.findLast(({ entry, product }) => entry === behind.id && product === undefined)
    : undefined;
  const at = nextMinute(dry === undefined ? behind.at : later(behind.at, dry.earliest));
  const again = dry === undefined ? undefined : stretches.find(({ from }) => from > dry.earliest);
  // In milk again within the minute: only the person can say when it was.
  if (again !== undefined && at >= again.from) return formPath('dry-off', { cow });
  return formPath('dry-off', { cow, ...timed(zone, at) });
};

/** Her entering once more, with all that it said and at its time; the holds are left to be stated. */
export const enterAgainPath = ({ subject, at, data }: EntryOf<'cow-entered'>, zone: Zone): string => {
  const { milkHoldUntil: milk, meatHoldUntil: meat, ...rest } = data;
  const none = (until: string | undefined) => (until === 'none' ? until : undefined);
  return formPath('cow-entered', {
    cow: subject,
    ...rest,
    milkHoldUntil: none(milk),
    meatHoldUntil: none(meat),
    ...timed(zone, at),
  });
};
