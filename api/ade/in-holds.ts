/** Withdrawals that no treatment carries, and milking visits. */
import { instantText } from '../../shared/instant.ts';
import { plainText } from './in-fields.ts';
import { draft, isOutcome, placed, type Reading, timeIn } from './in-reading.ts';
import { entryIdOf, type Incoming, notUsed, type Outcome, refusal, taken } from './in-resource.ts';

/**
 * Milk: a hold, lifted at its end once that has passed. Meat: the book has no entry for a meat hold without a medicine, so one that
 * still runs is set aside, which holds her until somebody settles it.
 */
export const withdrawalIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const product = fields.text('productType') ?? 'Milk';
  const end = timeIn(fields, 'endDateTime');
  const remark = fields.text('remark');
  const words = plainText(remark ?? `milk withheld, as ${resource.source} says`, 200);
  if (end !== undefined && end <= place.at) return notUsed('it ends as it begins: nothing is withheld');
  if (product === 'Meat') {
    if (end !== undefined && end <= reading.now) return notUsed(`the meat was free again ${instantText(end)}`);
    return refusal(
      `${resource.name}: meat withheld ${end === undefined ? 'without end' : `until ${instantText(end)}`} for no treatment that is named${remark === undefined ? '' : ` ("${plainText(remark, 120)}")`}; record the treatment, or settle this`,
      [place.subject],
    );
  }
  if (product !== 'Milk') return notUsed(`nothing here comes from "${product}"`);
  const hold = draft(resource, place, 'milk-hold', { reason: words });
  if (end === undefined) return taken([hold]);
  if (end > reading.now) {
    return taken(
      [hold],
      [
        `${resource.name}: milk withheld until ${instantText(end)}; the hold stays until it is lifted: import the file again after that, or record milk-hold-lifted`,
      ],
    );
  }
  const lift = draft(
    resource,
    { subject: place.subject, at: end },
    'milk-hold-lifted',
    { reason: `its end, as ${plainText(resource.source, 150)} says`, hold: entryIdOf(hold) },
    'lifted',
  );
  return taken([hold, lift]);
};

export const visitIn = (reading: Reading, resource: Incoming): Outcome => {
  const { fields } = resource;
  const started = timeIn(fields, 'milkingStartingDateTime');
  const place = placed(reading, resource, fields.has('eventDateTime') ? 'eventDateTime' : 'milkingStartingDateTime');
  if (isOutcome(place)) return place;
  const milking = reading.schedule.startedBy(started ?? place.at);
  const weight = fields.object('milkingMilkWeight');
  const unit = weight?.text('unitCode') ?? 'KGM';
  const kg = weight?.number('value');
  if (milking === undefined || kg === undefined || unit !== 'KGM')
    return notUsed(kg === undefined ? 'it gives no weight of milk' : `no milking, or a weight in ${unit}`);
  const duration = fields.object('milkingDuration') ?? fields.object('milkingVisitDuration');
  const length = duration?.number('value');
  const minutes = length === undefined ? undefined : duration?.text('unitCode') === 'SEC' ? length / 60 : length;
  const flow = fields
    .objects('milkCharacteristics')
    .find((each) => each.raw.characteristic === 'MAXFLWR' && !each.has('unit'));
  flow?.pass('characteristic');
  return taken([
    draft(resource, place, 'milk-record', { milking: milking.id, kg, minutes, peakFlow: flow?.number('value') }),
  ]);
};
