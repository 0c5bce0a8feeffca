/** English, the language of `print --json` and of every text that no other dictionary has. */
import type { MayBe, OffLabelCause, TankLoadSaid } from '../../projections/because.ts';
import type { Words } from './dictionary.ts';
import type { Format, Forms } from './format.ts';
import { keeperEn } from './keeper-en.ts';
import { whyEn } from './why-en.ts';

const days: Forms = { one: '# day', other: '# days' };
const milkings: Forms = { one: '# milking', other: '# milkings' };
const doses: Forms = { one: '# dose', other: '# doses' };
const cows: Forms = { one: '# cow', other: '# cows' };

const causes: Record<OffLabelCause, string> = {
  said: 'written down as off-label',
  route: 'not the route on the label',
  doses: 'more doses than the label',
  interval: 'doses closer than the label',
  age: 'past the age limit on the label',
  class: 'not for this class of animal',
};

const leftReasons: Readonly<Record<string, string>> = {
  'sold-for-beef': 'sold for beef',
  'sold-for-milking': 'sold for milking',
  died: 'died',
  other: 'other',
};

const offLabel = (list: readonly OffLabelCause[], f: Format): string => f.list(list.map((cause) => causes[cause]));

const mayBe = (number: string, how: MayBe, about: string, f: Format): string => {
  const what = f.about(about);
  if (how === 'two-cows') return `${what} was written for number ${number}, which two cows may answer to`;
  if (how === 'leading-zeros') return `${what} was written for number ${number}, hers but for the zeros in front`;
  if (how === 'old-number') return `${what} was written for number ${number}, which was hers before`;
  if (how === 'one-official-number')
    return `${what} was written for number ${number}, who has her official number and may be this cow`;
  return `${what} was written for number ${number} at a time when she was not in the herd`;
};

const lastDose = ({ planned }: { planned: boolean }): string => (planned ? 'planned last dose' : 'last dose');

const ends = (time: string | null, f: Format): string =>
  time === null ? 'no end can be worked out yet' : `ends ${f.time(time)}`;

const afterCalving = (hours: number | null, count: number | null, f: Format): string =>
  [hours === null ? '' : f.hours(hours), count === null ? '' : f.count(count, milkings)].filter(Boolean).join(' and ');

const euBasis = (basis: 'one-and-a-half' | 'zero' | 'not-authorised', label: string, unauthorised: string): string => {
  if (basis === 'one-and-a-half') return `off-label, 1.5 × the label's ${label}`;
  return basis === 'zero' ? 'off-label, label zero' : `off-label, ${unauthorised}`;
};

const whereIsLoad = (load: TankLoadSaid, f: Format): string =>
  load.collectedAt === null
    ? `Tank ${load.tank}: the load is still here, do not ship, test it`
    : `Tank ${load.tank}: collected ${f.time(load.collectedAt)}${load.ticket === null ? '' : ` (ticket ${load.ticket})`}: call the buyer`;

const noDryOff = (v: { group: string; since: string }, f: Format): string =>
  `in ${v.group} since ${f.day(v.since)} with no dry-off written down: what she was dried off with is not stated; held until it is (or "none")`;

export const en: Words = {
  locale: 'en-GB',
  clocksChange: 'the clocks change in between',
  milkingNames: {},
  kinds: {
    'farm-set-up': 'the farm set-up',
    'medicine-listed': 'a medicine listing',
    'medicine-received': 'a medicine received',
    'medicine-disposed': 'a medicine disposed of',
    'cow-entered': 'a cow entered',
    'number-changed': 'a change of number',
    'cow-left': 'a leaving',
    calving: 'a calving',
    abortion: 'an abortion',
    service: 'a service',
    'pregnancy-check': 'a pregnancy check',
    'dry-off': 'a dry-off',
    treatment: 'a treatment',
    'vet-hold-time': "a vet's hold time",
    'course-ended': 'the end of a course',
    'milk-hold': 'a milk hold',
    'milk-hold-lifted': 'a lifted milk hold',
    'milking-finished': 'the end of a milking',
    'tank-collection': 'a tank collection',
    'sheet-returned': 'a set of sheets returned',
    'sheet-issued': 'a set of sheets issued',
    'book-continued': 'a book continued',
    'residue-test': 'a residue test',
    'group-move': 'a group move',
    'sort-request': 'a sort request',
    'sort-done': 'a sort done',
    'head-count': 'a head count',
    'milk-record': 'a milk record',
    'entry-struck': 'a struck entry',
    settled: 'a doubt settled',
  },
  keeper: { ...keeperEn, offLabelCauses: causes, leftReasons },
  says: {
    'hold.hours': (v, f) => `${v.medicine}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.milkings, milkings)}${
        v.floorHours === null ? '' : `, never less than 12 h a milking = ${f.hours(v.floorHours)}`
      }: ${ends(v.ends, f)}`,
    'hold.hours-and-milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.hours(v.hours)} and ${f.count(v.milkings, milkings)}, the later (the ${v.governs}): ${ends(v.ends, f)}`,
    'hold.label-longer': (v, f) =>
      `${v.medicine}: a longer label was listed ${f.time(v.listed)} while the hold ran: ${ends(v.ends, f)}`,
    'hold.course-running': (v, f) =>
      `${v.medicine}: dose ${v.given} of ${v.of} given, last one planned ${f.time(v.plannedLast)}, then the label: ${ends(v.ends, f)}`,
    'hold.dose-not-recorded': (v, f) =>
      `${v.medicine}: dose ${v.dose} of ${v.of}${v.due === null ? '' : `, due ${f.milking(v.due)},`} is not written down; held until it is, or until the course is ended`,
    'hold.not-listed': (v) =>
      `${v.medicine} is not on the list of medicines; held until its label or the vet's time is entered`,
    'hold.label-unknown': (v) => `${v.medicine}: the list does not know its milk hold; held until the label is entered`,
    'hold.not-for-milking-cows': (v) => `${v.medicine} is not for milking cows; held until the vet gives a time`,
    'hold.off-label-no-vet': (v, f) =>
      `${v.medicine}, off-label (${offLabel(v.causes, f)}): the vet's time is missing; held until it is entered`,
    'hold.off-label-milkings-only': (v, f) =>
      `${v.medicine}, off-label: the label says ${f.count(v.milkings, milkings)} and no hours, so no time can be worked out; held until the vet gives one`,
    'hold.vet': (v, f) =>
      `${v.medicine}: vet's time${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelHours === null ? 'time' : f.hours(v.labelHours), 'not authorised for milk animals')}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.dry-cow-until-calving': (v, f) =>
      `${v.medicine}, dry-cow product given ${f.time(v.given)}: held until she calves, and then for the label's time`,
    'hold.dry-cow-after-calving': (v, f) =>
      `${v.medicine}, dry-cow product: calved ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.dry-cow-early': (v, f) =>
      `${v.medicine}, given ${f.time(v.given)}, calved ${f.calving(v)}: calved inside the dry-cow product's minimum of ${f.count(v.minimumDays, days)}: ask the vet, test the milk; ${v.ends === null ? "held until the vet's time or a clear test" : ends(v.ends, f)}`,
    'hold.dry-cow-milked-again': (v, f) =>
      `${v.medicine}, dry-cow product given ${f.time(v.given)}, and milked again without calving; held until the vet gives a time`,
    'hold.dry-cow-not-stated': (v, f) =>
      `${v.driedOff === null ? 'entered dry' : `dried off ${f.day(v.driedOff)}`} and the dry-cow product is not stated; held until it is (or "none")`,
    'hold.no-dry-off': noDryOff,
    'hold.back-from-dry': (v, f) =>
      `in ${v.group} from ${f.day(v.since)} to ${f.day(v.back)} with no dry-off written down, and milked again: was she given a dry-cow product? Held until a clear test; strike the move if she never stood there`,
    'hold.fresh': (v, f) =>
      `fresh: calved ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.fresh-not-set': (v, f) => `calved ${f.calving(v)}: no fresh hold set for the farm; held until it is`,
    'hold.before-due': (v, f) => `due ${f.day(v.due)}, still milked within ${f.count(v.days, days)} of it`,
    'hold.set-by-person': (v, f) => `"${v.reason}", since ${f.time(v.since)} (${v.author}), until it is lifted`,
    'hold.residue-positive': (v, f) =>
      `residue test positive${v.method === null ? '' : ` (${v.method})`}, sample of ${f.time(v.sampled)}; held until a clear test`,
    'hold.entered-until': (v, f) => `came into the book on hold until ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'came into the book without a word on milk hold; held until it is stated',
    'hold.entry-set-aside': (v) => `an entry about her could not be used: ${v.problem}; held until a person settles it`,
    'hold.dry-in-milked-group': (v) => `dry cow in ${v.group}: keep out of the tank`,
    'hold.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: settle whose it was`,
    'unplaced.not-in-herd': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: no cow of this number was in the herd. Find this cow before milking`,
    'unplaced.two-cows': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: may be ${f.list(v.cows)}, all held. Find which before milking`,
    'unplaced.leading-zeros': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: may be ${f.list(v.mayBe)}, held. Find this cow before milking`,
    'unplaced.old-number': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: nobody bore that number by then; may be ${f.list(v.mayBe)}, held. Find this cow before milking`,
    'unplaced.dose-struck': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, was struck ("${v.reason}"): which cow had it?`,
    'unplaced.set-aside': (v, f) =>
      `An entry could not be used and names ${v.cows.length === 0 ? 'no cow that can be read' : `${f.list(v.cows)}, which is no cow of the herd`}: ${v.problem}`,
    'unplaced.left-on-hold': (v, f) =>
      `left ${f.day(v.left)} on hold${v.until === null ? '' : ` until ${f.time(v.until)}`}. If she appears, milk out`,
    'treat.due': (v, f) => `last given ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = due ${f.time(v.planned)}`,
    'treat.overdue': (v, f) =>
      `last given ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = due ${f.time(v.planned)}${v.due === null ? '' : `, at ${f.milking(v.due)}`}, and not written down: ask before giving`,
    'dry-off.due': (v, f) =>
      `calving due ${f.day(v.due)} − ${f.count(v.days, days)} dry = ${f.day(v.target)}${
        v.weekday === null ? '' : `; dry-off day ${f.weekday(v.weekday)}: ${f.day(v.dryOffOn)}`
      }`,
    'dry-off.under-minimum': (v, f) =>
      `${f.count(v.daysLeft, days)} left to calving, less than the minimum of ${f.count(v.minimum, days)}`,
    'dry-off.product-minimum': (v, f) =>
      `${v.product} wants ${f.count(v.minimum, days)} before calving, ${f.number(v.daysLeft)} left: ask the vet`,
    'dry-off.twins': () => 'carries twins: may calve early',
    'dry-off.on-hold': (v, f) =>
      v.until === null ? 'on milk hold, no end known' : `on milk hold until ${f.time(v.until)}`,
    'dry-off.no-service': () => 'no service behind the due date: check it',
    'dry-off.not-confirmed': (v, f) =>
      `${f.count(v.daysInMilk, days)} in milk, past ${f.number(v.limit)}, and not confirmed pregnant`,
    'dry-off.no-due-date': () => 'pregnant, but no due date is known',
    'fresh.out': (v, f) =>
      `calved ${f.calving(v)}, ${f.hours(v.hours)} ago (${f.hours(v.wanted)} wanted), lactation ${v.lactation}, on no hold that keeps her`,
    'fresh.at-capacity': (v) => `${v.group} is full: ${v.head} with her, room for ${v.capacity}`,
    'fresh.stay-hours': (v, f) => `calved ${f.calving(v)}, ${f.hours(v.hours)} ago, ${f.hours(v.wanted)} wanted`,
    'fresh.stay-on-hold': (v, f) =>
      v.until === null ? 'on milk hold, no end known' : `on milk hold until ${f.time(v.until)}`,
    'fresh.stay-no-group': (v) => `no group takes a cow in lactation ${v.lactation}: say where she goes`,
    'fresh.stay-hours-not-set': () => 'the farm has not said how long a cow stays in the fresh pen',
    'fresh.stay-not-calved': () => 'not calved yet',
    'fresh.stay-calving-unknown': () => 'when she calved is not known',
    'fresh.in-calved': (v, f) => `calved ${f.calving(v)} and still in ${v.group}`,
    'fresh.in-due': (v, f) =>
      v.days < 0
        ? `was due ${f.day(v.due)}, ${f.count(-v.days, days)} ago, in ${v.group}`
        : `due ${f.day(v.due)}, in ${f.count(v.days, days)}, in ${v.group}`,
    'sort.request': (v) =>
      `${v.reason}${v.forWhom === null ? '' : `, for ${v.forWhom}`}${v.to === null ? '' : `, to ${v.to}`}`,
    'sort.dry-off': (v) => `dry off${v.product === null ? '' : ` with ${v.product}`}`,
    'sort.fresh-move': (v) => `out of the fresh pen, to ${v.to}`,
    'sort.dose': (v) => `treat: ${v.medicine}, dose ${v.dose} of ${v.of}`,
    'sort.cannot-dry': (v) => `dry, in ${v.group}: won't come through the parlour`,
    'sort.cannot-left': (v, f) => `left ${f.day(v.left)}`,
    'sort.cannot-unknown': () => 'no cow of this number in the herd',
    'sort.cannot-not-milked': (v) => `${v.group} is not milked at this milking`,
    'meat.days': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} (${f.count(v.doses, doses)}) = ${f.time(v.ends)}`,
    'meat.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelDays === null ? 'time' : f.count(v.labelDays, days), 'not authorised for food animals')}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.vet': (v, f) =>
      `${v.medicine}: vet's time${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.unknown': (v) => `${v.medicine}: the list does not know its meat hold; held until it is entered`,
    'meat.not-listed': (v) =>
      `${v.medicine} is not on the list of medicines; held until its label or the vet's time is entered`,
    'meat.off-label-no-vet': (v, f) =>
      `${v.medicine}, off-label (${offLabel(v.causes, f)}): the vet's time is missing; held until it is entered`,
    'meat.course-running': (v, f) =>
      `${v.medicine}: dose ${v.given} of ${v.of} given, last one planned ${f.time(v.plannedLast)}, then the label: ${ends(v.ends, f)}`,
    'meat.dose-not-recorded': (v) =>
      `${v.medicine}: dose ${v.dose} of ${v.of} is not written down; held until it is, or until the course is ended`,
    'meat.label-longer': (v, f) =>
      `${v.medicine}: a longer label was listed ${f.time(v.listed)} while the hold ran: ${ends(v.ends, f)}`,
    'meat.after-calving': (v, f) =>
      `${v.medicine}, dry-cow product: calved ${f.sum(v.calved, v.hours, v.ends, v.calvedOn)}`,
    'meat.product-not-stated': (v, f) =>
      `${v.driedOff === null ? 'entered dry' : `dried off ${f.day(v.driedOff)}`} and the dry-cow product is not stated; held until it is (or "none")`,
    'meat.no-dry-off': noDryOff,
    'meat.back-from-dry': (v, f) =>
      `in ${v.group} from ${f.day(v.since)} to ${f.day(v.back)} with no dry-off written down: whether she was given a dry-cow product is not stated; strike the move if she never stood there`,
    'meat.entered-until': (v, f) => `came into the book on meat hold until ${f.time(v.until)}`,
    'meat.entered-unknown': () => 'came into the book without a word on meat hold; held until it is stated',
    'meat.entry-set-aside': (v) => `an entry about her could not be used: ${v.problem}; held until a person settles it`,
    'meat.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: settle whose it was`,
    ...whyEn,
    'doubt.unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, names ${v.number}, which no cow in the herd then had: which cow was it?`,
    'doubt.two-cows': (v, f) => `Number ${v.number} may mean ${f.list(v.cows)}: which?`,
    'doubt.leading-zeros': (v, f) =>
      `Number ${v.number} matches ${f.list(v.mayBe)} only without the zeros in front: is it she?`,
    'doubt.struck-unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, for ${v.number} was struck without saying what is true instead: which cow had it?`,
    'doubt.set-aside': (v, f) =>
      `An entry could not be used: ${v.problem}${v.cows.length === 0 ? '; it names no cow that can be read' : `; held for it: ${f.list(v.cows)}`}`,
    'doubt.milk-not-stated': (v) =>
      `${v.cow}, in ${v.group}, has no calving and no dry-off on the book: is she in milk? Taken to be in milk`,
    'doubt.vet-time-not-longer': (v, f) =>
      `${v.cow}, ${v.medicine}: the vet's ${f.hours(v.vetHours)} are not longer than the label's${v.labelHours === null ? ' time' : ` ${f.hours(v.labelHours)}`}; the label stands`,
    'doubt.vet-time-unplaced': (v) => `A vet's hold time names the treatment ${v.treatment}, which is not on the book`,
    'doubt.vet-time-elsewhere': (v, f) =>
      `A vet's hold time was written for ${v.number}, but the treatment it names, ${f.about(v.about)}, ${f.time(v.at)}, is written for ${v.of}: it can only make that hold longer. Which of them did the vet mean?`,
    'doubt.both-still-wanted': (v) =>
      `${v.cow} is on a course of ${v.course} and was given ${v.other}: are both still wanted?`,
    'doubt.dose-not-recorded': (v) =>
      `${v.cow}, ${v.medicine}: dose ${v.dose} of ${v.of} is not written down: was it given?`,
    'doubt.retired-medicine': (v) => `${v.cow} was given ${v.medicine}, which is off the list`,
    'doubt.two-groups': (v, f) => `${v.cow} was put in ${f.list(v.groups)} at one time, ${f.time(v.at)}: where is she?`,
    'doubt.unknown-group': (v) => `${v.cow} was put in ${v.group}, a group that the farm does not have`,
    'doubt.after-leaving': (v, f) => `${v.cow}: ${f.about(v.about)}, ${f.time(v.at)}, though she left ${f.day(v.left)}`,
    'doubt.after-renumbering': (v, f) =>
      `${v.number}: ${f.about(v.about)}, ${f.time(v.at)}, though the cow of that number bore ${v.cow} by then: was it she?`,
    'doubt.entered-again': (v, f) =>
      `Number ${v.number} was entered ${f.time(v.at)} with the official number of ${f.list(v.cows)}, who is here: what holds the one holds both. The same cow: strike that entry and change her number. Another: strike it and enter her with her own official number`,
    'doubt.dry-off-when-dry': (v, f) => `${v.cow} was dried off ${f.time(v.at)}, and was dry already`,
    'doubt.calved-in-milk': (v, f) =>
      `${v.cow} calved ${f.time(v.at)}, and was in milk: was a dry-off not written down?`,
    'doubt.among-dry': (v, f) =>
      `${v.cow} is in milk for all that is written down, and among the dry cows in ${v.group} since ${f.day(v.since)}: write down the dry-off and its product, or move her back`,
    'doubt.date-ahead': (v, f) =>
      `${v.cow} came into the book ${f.time(v.at)} with a ${v.what === 'dry-off' ? 'dry-off' : 'calving'} of ${f.day(v.day)}, a day still to come: what is the right date?`,
    'doubt.past-due': (v, f) =>
      `${v.cow} was due ${f.day(v.due)}, ${f.count(v.days, days)} ago, and no calving is written down`,
    'doubt.calved-early': (v, f) =>
      `${v.cow} calved ${f.count(v.days, days)} before she was due, ${f.day(v.due)}: early`,
    'doubt.sort-several-places': (v, f) => `${v.cow} is to be sorted to ${f.list(v.places)}: which?`,
    'doubt.strike-of-nothing': (v) => `A strike names the entry ${v.entry}, which is not on the book`,
    'doubt.strike-of-strike': (v) => `A strike names another strike, ${v.entry}: enter the right entry again instead`,
    'doubt.one-id-two-contents': (v) => `Two entries have the id ${v.id} and say different things; both count`,
    'doubt.unknown-language': (v) =>
      `The farm's language "${v.language}" is not in the dictionary; its sheets print in English`,
    'doubt.number-in-use': (v, f) => `Number ${v.number} was given again, ${f.time(v.at)}, while another cow has it`,
    'doubt.two-labels': (v, f) =>
      `${v.medicine} is listed twice at one time, ${f.time(v.at)}, with different labels: the longer one holds. Which is right? Strike the other`,
    'doubt.two-set-ups': (v, f) =>
      `The farm is set up twice at one time, ${f.time(v.at)}, both from ${f.day(v.from)} on, and not alike: what holds longer counts. Which is right? Strike the other`,
    'doubt.head-count': (v, f) => `${v.group}: ${v.count} counted ${f.time(v.at)}, ${v.book} on the book`,
    'doubt.no-farm': () =>
      'No farm is set up in this book, so nothing that hangs on its milkings or rules can be worked out',
    'alert.late-news': (v, f) => {
      const until = v.until === null ? 'no end known' : `until ${f.time(v.until)}`;
      const what = `${v.cow} is on hold (${f.about(v.about)}, ${until}) at the ${f.milking(v.milking)} milking, and sheet ${v.ref} did not say so`;
      if (v.phase === 'before')
        return `${what}: ${v.saidHere === true ? 'these sheets say so: take the old ones down' : 'issue the sheets again and take the old ones down'}`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running' ? `${what}: ask whether she was milked first. ${milk}` : `${what}. ${milk}`;
    },
    'alert.late-unplaced': (v, f) => {
      const what = `Nobody can tell which cow it is: ${f.about(v.about)}${v.number === '' ? '' : ` for number ${v.number}`}. It bears on the ${f.milking(v.milking)} milking, and sheet ${v.ref} did not say so`;
      if (v.phase === 'before') return `${what}: issue the sheets again and take the old ones down`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running'
        ? `${what}: ask who it was and whether she was milked first. ${milk}`
        : `${what}. ${milk}`;
    },
    'alert.no-sheet': (v, f) =>
      `The ${f.milking(v.milking)} milking started with no milk-hold sheet issued while ${f.list(v.cows)} ${v.cows.length === 1 ? 'was' : 'were'} on hold. ${v.loads.map((load) => whereIsLoad(load, f)).join('; ')}`,
    'alert.tank-positive': (v, f) =>
      `Residue test of tank ${v.tank} positive, ${f.time(v.at)}: ${v.collectedAt === null ? 'the load is still here: do not ship it' : `collected ${f.time(v.collectedAt)}: call the buyer`}. Milkings in it: ${v.milkings.length === 0 ? 'none known' : f.list(v.milkings.map((milking) => f.milking(milking)))}`,
    'alert.left-on-hold': (v, f) => {
      const until = (time: string | null) => (time === null ? 'no end known' : `until ${f.time(time)}`);
      const holds = [
        v.milk ? `milk hold, ${until(v.milkUntil)}` : '',
        v.meat ? `meat hold, ${until(v.meatUntil)}` : '',
      ];
      return `${v.cow} left ${f.day(v.left)} (${leftReasons[v.reason] ?? v.reason}) on ${f.list(holds.filter(Boolean))}: tell the buyer in writing`;
    },
  },
  crew: {
    'hold.hours': () => '',
    'hold.milkings': () => '',
    'hold.hours-and-milkings': () => '',
    'hold.label-longer': () => '',
    'hold.course-running': (v) => `course running, ${v.given} of ${v.of} given`,
    'hold.dose-not-recorded': (v) => `dose ${v.dose} of ${v.of} not written down: was it given?`,
    'hold.not-listed': () => 'not on the list: ask',
    'hold.label-unknown': () => 'milk hold not known: ask',
    'hold.not-for-milking-cows': () => 'not for milking cows: ask the vet',
    'hold.off-label-no-vet': () => "off-label, vet's time missing: ask the vet",
    'hold.off-label-milkings-only': () => "off-label, vet's time missing: ask the vet",
    'hold.vet': () => '',
    'hold.off-label-eu': () => '',
    'hold.dry-cow-until-calving': () => 'dry-cow product, not calved since',
    'hold.dry-cow-after-calving': (v, f) => `dry-cow product, calved ${f.calving(v)}`,
    'hold.dry-cow-early': (v, f) => `dry-cow product, calved too soon, ${f.calving(v)}: ask the vet, test the milk`,
    'hold.dry-cow-milked-again': () => 'dry-cow product, milked again: ask the vet',
    'hold.dry-cow-not-stated': () => 'dry-cow product not stated: ask',
    'hold.no-dry-off': () => 'no dry-off written down, dry-cow product not stated: ask',
    'hold.back-from-dry': (v, f) =>
      `milked again after ${f.day(v.since)} among the dry cows with no dry-off written down: ask, test her milk`,
    'hold.fresh': (v, f) => `calved ${f.calving(v)}`,
    'hold.fresh-not-set': (v, f) => `calved ${f.calving(v)}, no fresh hold set`,
    'hold.before-due': (v, f) => `due to calve ${f.day(v.due)}`,
    'hold.set-by-person': (v, f) => `${v.reason}, since ${f.time(v.since)} (${v.author})`,
    'hold.residue-positive': (v, f) => `residue test positive, ${f.time(v.sampled)}`,
    'hold.entered-until': (v, f) => `came on hold until ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'came with no word on milk hold: ask',
    'hold.entry-set-aside': () => 'something written about her could not be used: ask the office',
    'hold.dry-in-milked-group': (v) => `stands in ${v.group}`,
    'hold.may-be-her': (v, f) => `may be number ${v.number}: ${f.about(v.about)}`,
    'unplaced.set-aside': (v) =>
      v.cows.length === 0
        ? 'Something written down could not be read, and names no cow: ask the office which cow it was'
        : 'Something was written down for this number that could not be used, and it is no cow of the herd: ask the office',
    'treat.due': (v, f) => `due ${f.time(v.planned)}; last given ${f.time(v.lastGiven)}`,
    'treat.overdue': (v, f) => `was due ${f.time(v.planned)}; last written down ${f.time(v.lastGiven)}`,
    'sort.request': (v) => `${v.reason}${v.forWhom === null ? '' : `, for ${v.forWhom}`}`,
    'sort.fresh-move': () => 'out of the fresh pen',
  },
  labels: {
    onlyFor: (when) => `Only for ${when}`,
    takeOldDown: 'Take the old sheet down.',
    replaces: (ref) => `This replaces ${ref}: take that one down.`,
    rehearsal: 'REHEARSAL: not for real cows',
    notIssued: 'not issued',
    printed: (time) => `printed ${time}`,
    page: (page, pages) => `Page ${page} of ${pages}`,
    linesHere: (here, all) => `lines on this page: ${here} of ${all}`,
    continued: 'continued',
    part: (part, parts) => `part ${part} of ${parts}`,
    book: 'book',
    position: 'position',
    root: 'root',
    whenUnsure: 'When unsure: milk out of the tank, and ask.',
    cautions:
      "Follow the label and the vet's directions. Local rules govern. This sheet is arithmetic on what was written down; it replaces neither.",
    initials: 'initials',
    medicine: 'medicine',
    done: 'done',
    byHand: 'Written by hand since printing',
    byHandWhat: 'milk out? why, and who said so',
    alerts: 'Alerts',
    cow: 'cow',
    group: 'group',
    why: 'why',
    since: 'since',
    until: 'until',
    noEndKnown: 'no end known',
    lastDose: (time) => `last dose ${time}`,
    quarters: {
      'left-front': 'left front',
      'right-front': 'right front',
      'left-hind': 'left hind',
      'right-hind': 'right hind',
      'left-rear': 'left rear',
      'right-rear': 'right rear',
    },
    front: 'front',
    leftLetter: 'L',
    rightLetter: 'R',
    milkHold: 'Milk hold',
    milkOut: (n, f) => f.count(n, { one: '# cow: milk out of the tank', other: '# cows: milk out of the tank' }),
    noneHeld: 'No cow is on milk hold at this milking.',
    noneHeldButFind: 'No cow of the herd is on milk hold, but the cows above are still to be found.',
    find: 'Find these before milking',
    findHow: 'Until found: milk of any cow it may be stays out of the tank.',
    unreadable: 'no number',
    dryAmongMilkers: 'Dry cow among the milkers: keep out of the tank',
    groupHeld: (group, n, f) => `${group}: ${f.number(n)} on hold`,
    groupNone: (group) => `${group}: none on hold`,
    wears: (mark) => `Each wears: ${mark}`,
    isNew: 'NEW',
    milkTo: (place) => `milk to: ${place}`,
    keepApart: 'milk: not in the tank',
    causes: { treated: 'Treated', fresh: 'Fresh', abnormal: 'Milk not right', dry: 'Dry cow', unknown: 'Not known' },
    inTheTank: 'in the tank from',
    keepOut: 'KEEP OUT. No end known: ask',
    keepOutDry: 'KEEP OUT. She is dry: ask',
    afterTime: (time) => `after ${time}`,
    milkingsLeft: (n, f) => (n === 1 ? 'this milking only' : f.count(n, { other: '# milkings left' })),
    askFirst: 'Given during this milking: ask whether she was milked first',
    bandsOff: (n, f) => `Bands off: ${f.count(n, cows)} free since the last sheet`,
    bandOff: 'band off',
    noneCleared: 'Bands off: none since the last sheet.',
    freeSince: (time) => `free since ${time}`,
    notBefore: (time) => `not before ${time}`,
    gone: 'On the last sheet, not on this one, and not cleared',
    goneHow: {
      'dried-off': 'dried off',
      left: 'left the herd',
      struck: 'the entry was struck: ask before the band comes off',
      'not-milked-now': 'her group is not milked now',
    },
    treatNow: (n, f) => `Treat now: ${f.count(n, { one: '# dose', other: '# doses' })}`,
    noneToTreat: 'Treat now: no dose is due at this milking.',
    dose: (dose, of) => `dose ${dose} of ${of}`,
    amount: (value, unit) => `${value} ${unit}`,
    askBeforeGiving: 'OVERDUE: ask before giving',
    bandNoLine: 'Band but not on this list, or on this list and no band: milk out of the tank, and ask.',
    milkWentIn:
      'Held milk went into the line or the tank? STOP milking into it. Do not ship. Do not clean it away. Ring:',
    dryOff: 'Dry-off',
    dryOffRule: 'Milk her out first. Clean the teats. Band on before she leaves.',
    dryOffCount: (n, f) => f.count(n, { one: '# cow to dry off', other: '# cows to dry off' }),
    noneToDryOff: 'No cow is due to be dried off.',
    dryOffOn: (day) => `dry off ${day}`,
    calvingDue: (day) => `calving due ${day}`,
    overdue: (n, f) => `OVERDUE by ${f.count(n, days)}`,
    product: 'product',
    sealant: 'sealant',
    band: 'band on',
    quartersDone: 'quarters, sealant, band',
    undecided: 'Long in milk and not confirmed pregnant: decide',
    noneUndecided: 'No cow is long in milk without a confirmed pregnancy.',
    daysInMilk: (n, f) => `${f.count(n, days)} in milk`,
    decision: 'decided',
    freshMoves: 'Fresh pen',
    movesOut: (n, f) => `Out of the fresh pen: ${f.count(n, cows)}`,
    noneOut: 'Out of the fresh pen: none at this milking.',
    goesTo: (group) => `to ${group}`,
    from: (group) => `from ${group}`,
    stays: 'Stay in the fresh pen',
    noneStay: 'No cow stays in the fresh pen.',
    comesIn: 'Into the fresh pen',
    noneIn: 'No cow comes into the fresh pen.',
    pen: 'In the pen: look at each',
    nonePen: 'The fresh pen is empty.',
    calved: (time) => `calved ${time}`,
    notCalved: 'no calving written down',
    milkingsSince: (n, f) => `${f.count(n, milkings)} since`,
    ease: (ease) => `ease ${ease}`,
    calf: (sex, alive, number) =>
      `${sex === 'female' ? 'heifer calf' : sex === 'male' ? 'bull calf' : 'calf'}${number === undefined ? '' : ` ${number}`}${alive ? '' : ', dead'}`,
    temperature: 'temperature',
    milkCheckedBy: 'milk checked by',
    sort: 'Sort',
    sortCount: (n, f) => f.count(n, { one: '# cow to sort', other: '# cows to sort' }),
    noneToSort: 'No cow is to be sorted at this milking.',
    to: (places) => `to ${places}`,
    whereTo: 'where to',
    backTo: (group) => `back to ${group}`,
    noPlace: 'place not said: ask',
    placesDiffer: 'more than one place: ask',
    cannotCome: 'Asked for, and will not come through',
    tally: (n, f) => `sorted: ______ of ${f.number(n)}`,
    counts: 'Head count',
    expected: 'expected',
    counted: 'counted',
    inMilk: 'in milk',
    held: 'on hold',
    cameIn: 'came in',
    wentOut: 'went out',
    movements: 'Came and went since the last count sheet',
    nobodyMoved: 'No cow came or went since the last count sheet, and the counts agree.',
    allGroups: 'all groups',
    lastCount: (n, when, difference, f) =>
      `last count ${f.number(n)}${when === null ? '' : `, ${f.time(when)}`}: ${difference === 0 ? 'agreed with the book' : `${f.number(Math.abs(difference))} ${difference > 0 ? 'more' : 'fewer'} than the book`}`,
    notMilkedNow: 'not milked at this milking',
    capacity: (head) => `room for ${head}`,
    noGroups: 'The farm has no groups in the book.',
    plan: 'Milking plan',
    planTotal: (start, finish, duration) => `Starts ${start}, done about ${finish}, ${duration}`,
    nonePlanned: 'No cows are to be milked at this milking.',
    order: 'order',
    cows: 'cows',
    turns: 'turns',
    start: 'start',
    finish: 'done about',
    minutes: 'minutes',
    duration: (hours, minutes) => (hours === 0 ? `${minutes} min` : `${hours} h ${minutes} min`),
    slow: 'Slow cows: attach first',
    noneSlow: 'No slow cows are known.',
    before: 'Before milking',
    after: 'After milking',
    footBath: 'FOOT BATH at this milking',
    noFootBath: 'No foot bath at this milking.',
    beefHold: 'Meat hold',
    beefRule: 'No cow on this list may leave for slaughter.',
    beefCount: (n, f) => f.count(n, { one: '# cow on meat hold', other: '# cows on meat hold' }),
    noneBeefHeld: 'No cow is on meat hold.',
    wall: 'Milk hold and plan',
    office: 'Office',
    noAlerts: 'No alerts stand.',
    doubts: 'Doubts to settle',
    noDoubts: 'No doubts stand.',
    dosesMissing: 'Doses not written down',
    noDosesMissing: 'Every planned dose is written down.',
    notReturned: 'Sheets not returned',
    allReturned: 'Every sheet is returned.',
    forTheVet: 'For the vet',
    nothingForTheVet: 'Nothing waits for the vet.',
    openEnded: 'On hold until somebody says more',
    nobodyOpenEnded: 'No other cow is on hold without a known end.',
  },
};
