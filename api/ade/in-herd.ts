/** Animals that leave, their numbers and their groups. */
import { departureOf } from './codes.ts';
import { plainText } from './in-fields.ts';
import { draft, isOutcome, placed, type Reading, timeIn } from './in-reading.ts';
import { type Incoming, notUsed, type Outcome, taken } from './in-resource.ts';
import { BARN_SCHEME } from './names.ts';

export const departureIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const kind = fields.text('departureKind');
  const why = fields.text('departureReason');
  const reason = departureOf(kind, why);
  const consignment = fields.object('consignment');
  const to =
    consignment?.object('destinationPostalAddress')?.text('streetAddress') ?? consignment?.text('destinationAddress');
  const said = [kind, why].filter((each) => each !== undefined).join(', ');
  return taken(
    [
      draft(resource, place, 'cow-left', {
        reason: reason ?? 'other',
        to: to === undefined ? undefined : plainText(to, 120),
      }),
    ],
    reason === undefined ? [`${resource.name}: left for "${said || 'no reason given'}", recorded as "other"`] : [],
  );
};

export const deathIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const operator = fields.text('disposalOperator');
  if (fields.raw.deathReason === 'Unknown') fields.pass('deathReason');
  if (fields.raw.deathMethod === 'Perished') fields.pass('deathMethod');
  return taken([
    draft(resource, place, 'cow-left', {
      reason: 'died',
      to: operator === undefined ? undefined : plainText(operator, 120),
    }),
  ]);
};

export const joinIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const set = resource.fields.text('animalSetId');
  if (set === undefined) return notUsed('it does not say which group she joined');
  const to = reading.groupOf(set);
  return taken(
    [draft(resource, place, 'group-move', { to })],
    reading.isFarmGroup(to) ? [] : [`group "${to}" is not in the farm’s set-up; it counts as milked`],
  );
};

/** Leaving one group is said by joining another; alone it names no place where she is. */
export const leaveIn = (reading: Reading, resource: Incoming): Outcome => {
  const at = timeIn(resource.fields, 'eventDateTime');
  const set = resource.fields.text('animalSetId') ?? 'a group';
  const joins = reading
    .othersOf(resource)
    .some((each) => each.kind === 'animalsetjoinevent' && timeIn(each.fields, 'eventDateTime') === at);
  return joins
    ? taken([])
    : notUsed(`it says that she left ${set} and not where she went; she stays where the book has her`);
};

/** An animal under a new management tag, from a time on. */
export const numberIn = (reading: Reading, resource: Incoming): Outcome | undefined => {
  const { validFrom, animal } = resource;
  const { tag } = reading.animals.namedBy(resource.fields);
  const subject = reading.animals.numberInHerd(animal) ?? (animal?.scheme === BARN_SCHEME ? animal.id : undefined);
  if (validFrom === undefined || tag === undefined || subject === undefined || subject === tag) return undefined;
  resource.fields.pass('specie', 'gender');
  return taken([draft(resource, { subject, at: validFrom }, 'number-changed', { to: tag })]);
};
