/**
 * One cow of the dry-off sheet: the dry-off with its product and group, the sealant as a treatment where the farm lists
 * one; quarter and band boxes, for which no entry has room, go into the note.
 */

import { QUARTERS } from '../../../events/fields.ts';
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import { groupsInOrder } from '../../../projections/groups.ts';
import type { Known } from '../../../projections/know.ts';
import type { Instant } from '../../../shared/instant.ts';
import { say } from '../say.tsx';
import type { Book } from './already.ts';
import type { DryLine } from './on-paper.ts';
import { quarterName } from './quarter-names.ts';
import type { Gathering } from './taken.ts';
import type { Sheet, Taking } from './taking.ts';
import type { Span } from './when.ts';

/** The four boxes as the udder stands. */
export const BOXES = QUARTERS.slice(0, 4);

/** After the dry-off in time, so that it is given to a dry cow. */
const AFTER = 1_000;

export const dryOffLine = (
  { knowledge }: Book,
  { form, who }: Sheet,
  line: DryLine,
  { time, draft, take }: Taking,
  into: Gathering,
): void => {
  const field = (name: string): string | undefined => form.one(`${line.field}.${name}`);
  const { cow } = line;
  const product = field('product');
  const group = field('group');
  const sealant = field('sealant-given') === undefined ? undefined : field('sealant');
  const givenBy = who;
  const drafts = [
    draft('dry-off', { ...(product === undefined ? {} : { product }), ...(group === undefined ? {} : { group }) }),
  ];
  if (sealant !== undefined) {
    const after = draft('treatment', { medicine: sealant, ...(givenBy === undefined ? {} : { givenBy }) });
    drafts.push({ ...after, at: (time.at + AFTER) as Instant });
  } else if (field('sealant-given') !== undefined) into.notes.push(say('{cow} teat sealant', { cow }));

  const quarters = BOXES.filter((quarter) => form.all(`${line.field}.quarters`).includes(quarter));
  if (quarters.length === 0) into.notTicked.push(say('{cow}: no quarter is ticked on her dry-off line', { cow }));
  else if (quarters.length < BOXES.length)
    into.notes.push(
      say('{cow} dry-off, quarters ticked: {quarters}', { cow, quarters: quarters.map(quarterName).join(', ') }),
    );
  if (field('band') === undefined)
    into.notTicked.push(say('{cow}: her dry-off band was not ticked as put on', { cow }));
  else into.notes.push(say('{cow} dry-off band on', { cow }));
  if (product === undefined)
    into.cautions.push(
      say('{cow}: no dry-cow product is said, so her milk is held after calving until it is', { cow }),
    );
  else if (product !== 'none' && !dryCowProducts(knowledge.known).includes(product))
    into.cautions.push(say('{cow}: {product} is not listed as a dry-cow product', { cow, product }));
  const given =
    product === undefined
      ? say('product not said')
      : product === 'none'
        ? say('no product')
        : say('with {product}', { product });
  take(
    [
      say('{cow} dried off', { cow }),
      given,
      ...(sealant === undefined ? [] : [sealant]),
      ...(group === undefined ? [] : [say('goes to {group}', { group })]),
    ].join(', '),
    drafts,
    drafts[0]?.subject,
  );
};

const latest = (known: Known): MedicineListed[] =>
  [...known.farm.listings.values()].flatMap((listings) => listings.at(-1)?.data ?? []);

/** Products for drying off that the farm lists and has not retired. */
export const dryCowProducts = (known: Known): string[] =>
  latest(known)
    .filter(({ dryCow, retired }) => dryCow !== undefined && retired !== true)
    .map(({ name }) => name);

export const sealants = (known: Known): string[] =>
  latest(known)
    .filter(({ kind, retired }) => kind === 'sealant' && retired !== true)
    .map(({ name }) => name);

export const medicines = (known: Known): string[] =>
  latest(known)
    .filter(({ retired }) => retired !== true)
    .map(({ name }) => name);

/** Groups that a dried-off cow goes to, the dry ones first. */
export const dryGroups = ({ schedule, milking }: Span): string[] => {
  const groups = groupsInOrder(schedule.inForceOn(milking.day).data);
  const rank = (kind: string): number => (kind === 'dry' ? 0 : kind === 'close-up' ? 1 : 2);
  return [...groups].sort((a, b) => rank(a.kind) - rank(b.kind)).map(({ name }) => name);
};
