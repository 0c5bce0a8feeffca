/**
 * What sits oddly in one cow's history. Most of it is the same at every milking, and most cows have nothing odd at all: they
 * are asked once.
 */
import { instantText } from '../shared/instant.ts';
import { type Because, because } from './because.ts';
import { numberAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import type { Labels } from './farm.ts';
import { saidOfAll } from './kept-for-herd.ts';
import { dosedAnimal, outcomeOf } from './milk-hold.ts';
import type { CowMoment } from './moment.ts';
import { hasEverCalvedEarly, pregnancyAt } from './pregnancy.ts';
import { rememberedInRoom } from './remembered.ts';
import { pastOf } from './settled-past.ts';
import type { Notice } from './views.ts';

export const oddHistories = saidOfAll(
  'odd histories',
  (file, moment): readonly Notice[] => [
    ...oddAlways(file, moment.farm),
    ...calvedEarly(file, moment),
    ...vetNotLonger(file, moment),
  ],
  (file, labels) =>
    oddAlways(file, labels).length > 0 || hasCalvedEarly(file, labels) || file.dosings.some(isTimedByVet),
);

/** A file goes with its labels: other labels, another file. */
const oddAlways = (file: CowFile, labels: Labels): readonly Notice[] => {
  const kept = oddKept(file);
  kept.notices ??= oddFound(file, labels);
  return kept.notices;
};

const oddKept = rememberedInRoom((_: CowFile): { notices?: readonly Notice[] } => ({}));

const oddFound = (file: CowFile, { listings, schedule }: Labels): readonly Notice[] => {
  const { cow, lactations, dosings } = file;
  const number = (at: Parameters<typeof numberAt>[1]) => numberAt(cow, at);
  const notices: Notice[] = [];
  const add = (key: string, reason: Because) => notices.push({ key, because: reason });
  for (const entry of lactations.dryOffWhenDry) {
    add(
      `dry-off-when-dry:${entry.id}`,
      because('R-06', 'doubt.dry-off-when-dry', { cow: number(entry.at), at: instantText(entry.at) }, [entry.id]),
    );
  }
  for (const { entry } of lactations.calvedInMilk) {
    add(
      `calved-in-milk:${entry.id}`,
      because('R-06', 'doubt.calved-in-milk', { cow: number(entry.at), at: instantText(entry.at) }, [entry.id]),
    );
  }
  for (const { id, at, data } of cow.entered) {
    for (const [what, given] of [
      ['dry-off', data.driedOffOn],
      ['calving', data.calvedOn],
    ] as const) {
      if (given === undefined || schedule === undefined || given <= schedule.dayOf(at)) continue;
      const values = { cow: number(at), what, day: given, at: instantText(at) };
      add(`date-ahead:${what}:${id}`, because('R-19', 'doubt.date-ahead', values, [id]));
    }
  }
  cow.placements.forEach((placement, index) => {
    const together = cow.placements.filter((each) => each.at === placement.at);
    const groups = [...new Set(together.map((each) => each.group))];
    if (groups.length > 1 && cow.placements.findIndex((each) => each.at === placement.at) === index) {
      const values = { cow: number(placement.at), groups, at: instantText(placement.at) };
      add(
        `two-groups:${cow.key}:${instantText(placement.at)}`,
        because(
          'R-70',
          'doubt.two-groups',
          values,
          together.map((each) => each.entry),
        ),
      );
    }
  });
  for (const dosing of dosings) {
    const { course, medicine, last } = dosing;
    const listing = listings.get(dosing.medicineKey)?.findLast((each) => each.at <= last.at);
    if (listing?.data.retired === true) {
      add(
        `retired-medicine:${last.id}`,
        because('R-29', 'doubt.retired-medicine', { cow: number(last.at), medicine }, [last.id, listing.id]),
      );
    }
    if (course?.running !== true || dosing.mayBe !== undefined) continue;
    for (const other of dosings) {
      if (other.medicineKey === dosing.medicineKey || other.last.at < dosing.doses[0].at || other.last.at < last.at)
        continue;
      const kind = listings.get(other.medicineKey)?.at(-1)?.data.kind ?? 'medicine';
      if (kind !== 'medicine') continue;
      const values = { cow: number(last.at), course: medicine, other: other.medicine };
      add(
        `both-still-wanted:${course.id}:${other.course?.id ?? other.last.id}`,
        because('R-17', 'doubt.both-still-wanted', values, [last.id, other.last.id]),
      );
    }
  }
  const treated = new Set(cow.treatments.map((hers) => hers.entry.id));
  for (const dry of lactations.dryStarts) treated.add(dry.entry);
  for (const time of cow.vetTimes) {
    if (!time.doses.some((dose) => treated.has(dose))) {
      const { id, data } = time.entry;
      add(`vet-time-unplaced:${id}`, because('R-15', 'doubt.vet-time-unplaced', { treatment: data.treatment }, [id]));
    }
  }
  return notices;
};

const calvedEarly = ({ cow }: CowFile, moment: CowMoment): readonly Notice[] =>
  pregnancyAt(cow, moment.schedule, moment.windowEnd).early.map(({ entry, due, days }): Notice => {
    const told = [...cow.calvings.map((hers) => hers.entry), ...cow.entered];
    const calving = told.find(({ id }) => id === entry);
    const values = { cow: numberAt(cow, calving?.at ?? moment.milking.start), due, days };
    return { key: `calved-early:${entry}`, because: because('R-46', 'doubt.calved-early', values, [entry]) };
  });

const hasCalvedEarly = ({ cow }: CowFile, { schedule }: Labels): boolean =>
  schedule !== undefined && hasEverCalvedEarly(cow, schedule);

/** Only where the vet gave a time can it have been no longer than the label's. */
const isTimedByVet = ({ vet }: CowFile['dosings'][number]): boolean => vet.milk !== undefined;

const vetNotLonger = (file: CowFile, moment: CowMoment): readonly Notice[] => {
  const timed = file.dosings.filter(isTimedByVet);
  if (timed.length === 0) return [];
  const past = pastOf(file, moment);
  const animal = dosedAnimal(file, moment, past.nth);
  return timed.flatMap((dosing): Notice[] => {
    const { vetNotLonger: said } = outcomeOf(dosing, moment, animal, past).outcome;
    if (said === undefined) return [];
    const { medicine, last, vet } = dosing;
    const values = { cow: numberAt(file.cow, last.at), medicine, ...said };
    return [
      {
        key: `vet-time-not-longer:${last.id}`,
        because: because('R-15', 'doubt.vet-time-not-longer', values, [last.id, ...vet.entries]),
      },
    ];
  });
};
