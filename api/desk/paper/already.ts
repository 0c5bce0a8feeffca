/**
 * What the book says of a line by now: who the number meant and how she is called today, and whether the thing stands
 * written down already by another way. A line that is shut can't be ticked; remarks are for whoever ticks.
 */
import type { Entry, EntryOf } from '../../../events/entry.ts';
import { groupAt, numberAt, presentAt } from '../../../projections/cow.ts';
import type { CowFile } from '../../../projections/cow-file.ts';
import { medicineKey } from '../../../projections/farm.ts';
import { type Group, groupsInOrder } from '../../../projections/groups.ts';
import { liveEntries } from '../../../projections/live.ts';
import { inMilkDuring } from '../../../projections/moment.ts';
import { bearersAt, bearersOnSheet } from '../../../projections/standing.ts';
import { momentOf } from '../../../projections/views-at.ts';
import { type Instant, instantText } from '../../../shared/instant.ts';
import { assertNever } from '../../../shared/refusal.ts';
import type { Knowledge } from '../../tonight.ts';
import { say } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import type { DoseLine, DryLine, InLine, OutLine, PaperLine, SortLine } from './on-paper.ts';
import type { Span } from './when.ts';

export interface Stands {
  /** The number to write an entry under, at that time. */
  readonly subjectAt: (at: Instant) => string;
  /** Why there is nothing to tick. */
  readonly shut?: string | undefined;
  readonly remarks: readonly string[];
}

export interface Book {
  readonly knowledge: Knowledge;
  readonly set: EntryOf<'sheet-issued'>;
  readonly span: Span;
  readonly speaking: Speaking;
}

/** How a line stands in the book now. */
export const standsNow = (book: Book, line: PaperLine): Stands => {
  if (line.kind === 'count') {
    const { farm } = book.knowledge.known;
    const counted = farm.headCounts.findLast(
      ({ data }) => data.milking === book.span.milking.id && data.group === line.group,
    );
    return {
      subjectAt: () => '',
      shut:
        counted === undefined
          ? undefined
          : say('in the book already: counted {count} ({author})', {
              count: counted.data.count,
              author: counted.author,
            }),
      remarks: [],
    };
  }
  const { known } = book.knowledge;
  const { milking, schedule, now } = book.span;
  const keys = bearersOnSheet(known, schedule, line.cow, milking);
  const files = known.files.filter(({ animal }) => keys.includes(animal.key));
  const file = files.length === 1 ? files[0] : undefined;
  const subjectAt = (at: Instant): string => {
    if (file === undefined) return line.cow;
    const number = numberAt(file.cow, at);
    return bearersAt(known, number, at).length > 1 ? (file.cow.officialId ?? number) : number;
  };
  const more = moreOf(book, line, file);
  return { subjectAt, shut: more.shut, remarks: [...whoRemarks(book, line.cow, files, now), ...more.remarks] };
};

const whoRemarks = ({ speaking }: Book, number: string, files: readonly CowFile[], now: Instant): string[] => {
  const file = files[0];
  if (file === undefined)
    return [
      say('no cow of the herd is {number} at that milking any more: ticked, it stands unplaced until settled', {
        number,
      }),
    ];
  if (files.length > 1)
    return [
      say('{number} may mean {n, plural, one {# cow} other {# cows}}: ticked, it may count for each of them', {
        number,
        n: files.length,
      }),
    ];
  const today = numberAt(file.cow, now);
  const left = presentAt(file.cow, now) ? undefined : file.cow.left.at(-1);
  return [
    ...(today === number ? [] : [say('her number is {number} now', { number: today })]),
    ...(left === undefined
      ? []
      : [say('she left the herd {time}', { time: speaking.format.time(instantText(left.at)) })]),
  ];
};

type More = Pick<Stands, 'shut' | 'remarks'>;

const moreOf = (book: Book, line: Exclude<PaperLine, { kind: 'count' }>, file: CowFile | undefined): More => {
  switch (line.kind) {
    case 'dose':
      return ofDose(book, line, file);
    case 'dry':
      return ofDry(book, line, file);
    case 'out':
      return ofMove(book, line, file, [line.to]);
    case 'in':
      return ofMove(
        book,
        line,
        file,
        pensOf(book.span).map(({ name }) => name),
      );
    case 'sort':
      return ofSort(book, line);
    case 'band':
    case 'undecided':
    case 'pen':
      return { remarks: [] };
    default:
      return assertNever(line);
  }
};

const ofDose = (book: Book, line: DoseLine, file: CowFile | undefined): More => {
  const { entries, known } = book.knowledge;
  const course = courseOf(book.knowledge, line);
  if (course === undefined)
    return {
      shut: say('the earlier doses of this course are not in this book; get the other book’s entries first'),
      remarks: [],
    };
  const struck = new Set(known.strikes.struck.map(({ entry }) => entry.id));
  const live = entries().filter((entry): entry is EntryOf<'treatment'> => isDose(entry) && !struck.has(entry.id));
  const same = live.filter(({ data }) => medicineKey(data.medicine) === medicineKey(line.medicine));
  const given = same.find(({ data }) => data.course?.id === course.id && data.course.dose === line.dose);
  if (given !== undefined)
    return { shut: say('in the book already: given {when}', { when: when(book, given) }), remarks: [] };
  const ended = liveEntries(known.strikes.live).find(
    (entry) => entry.type === 'course-ended' && entry.data.course === course.id,
  );
  const { milking, next } = book.span;
  const hers = new Set((file?.cow.treatments ?? []).map(({ entry }) => entry.id));
  const another = same.find(
    (entry) =>
      hers.has(entry.id) &&
      !line.before.includes(entry.id) &&
      entry.at >= milking.start &&
      (next === undefined || entry.at < next),
  );
  return {
    remarks: [
      ...(line.overdue ? [say('overdue when the sheet was printed')] : []),
      ...(line.before.every((id) => struck.has(id))
        ? [say('every dose behind this line was struck since: ask first')]
        : []),
      ...(ended === undefined ? [] : [say('the course was ended {when}', { when: when(book, ended) })]),
      ...(another === undefined
        ? []
        : [
            say('a dose of it outside this course is in the book, {when}: if it is this one, do not tick', {
              when: when(book, another),
            }),
          ]),
    ],
  };
};

const isDose = (entry: Entry): boolean => entry.type === 'treatment';

/** The course as the doses behind the line say it; a struck one only where no other is left. */
export const courseOf = ({ known }: Knowledge, line: DoseLine) => {
  const struck = new Set(known.strikes.struck.map(({ entry }) => entry.id));
  const doses = [...new Set(line.before)]
    .flatMap((id) => known.ids.find(id))
    .sort((a, b) => a.position - b.position)
    .flatMap((entry) => (entry.type === 'treatment' && entry.data.course !== undefined ? [entry] : []));
  const last = doses.findLast(({ id }) => !struck.has(id)) ?? doses.at(-1);
  return last?.data.course;
};

const ofDry = (book: Book, _: DryLine, file: CowFile | undefined): More => {
  if (file === undefined) return { remarks: [] };
  const { knowledge, span, set } = book;
  const dried = file.cow.dryOffs.findLast(({ at }) => at >= Math.min(set.at, span.milking.start));
  if (dried !== undefined)
    return { shut: say('in the book already: dried off {when}', { when: when(book, dried) }), remarks: [] };
  const moment = momentOf(knowledge.known, { milking: span.milking, asOf: span.now, position: knowledge.position });
  return moment === undefined || inMilkDuring(file, moment)
    ? { remarks: [] }
    : { shut: say('in the book already: she was dry at that milking'), remarks: [] };
};

const ofMove = (book: Book, line: OutLine | InLine, file: CowFile | undefined, to: readonly string[]): More => {
  if (file === undefined) return { remarks: [] };
  const { set, span, speaking } = book;
  const since = file.cow.placements.filter(({ at }) => at >= Math.min(set.at, span.milking.start));
  const moved = since.find(({ group }) => to.includes(group));
  const told = (at: Instant): string => speaking.format.time(instantText(at));
  if (moved !== undefined)
    return {
      shut: say('in the book already: moved to {group} {time}', { group: moved.group, time: told(moved.at) }),
      remarks: [],
    };
  const stands = groupAt(file.cow, span.now);
  if (stands !== undefined && to.includes(stands))
    return { shut: say('in the book already: she stands in {group}', { group: stands }), remarks: [] };
  const elsewhere = since.at(-1);
  return {
    remarks:
      elsewhere === undefined || elsewhere.group === line.group
        ? []
        : [say('she was moved to {group} {time}', { group: elsewhere.group, time: told(elsewhere.at) })],
  };
};

/** Groups that a cow may come into from the fresh pen's sheet: fresh pens, then the close-up groups. */
export const pensOf = ({ schedule, milking }: Span): readonly Group[] => {
  const groups = groupsInOrder(schedule.inForceOn(milking.day).data);
  return [...groups.filter(({ kind }) => kind === 'fresh'), ...groups.filter(({ kind }) => kind === 'close-up')];
};

const ofSort = (book: Book, line: SortLine): More => {
  const asked = requestsOf(line);
  if (asked.length === 0) return { shut: say('written up at its own line of another sheet'), remarks: [] };
  if (openRequests(book, line).length > 0) return { remarks: [] };
  const { known } = book.knowledge;
  const done = asked.flatMap((id) => known.farm.sorted.get(id) ?? []);
  const last = done.at(-1);
  return {
    shut:
      last === undefined
        ? say('struck since: nobody asks for her any more')
        : say('in the book already: sorted {time}', { time: book.speaking.format.time(instantText(last)) }),
    remarks: [],
  };
};

/** Ids of the requests behind a line. */
const requestsOf = (line: SortLine): string[] => [
  ...new Set(line.reasons.flatMap((reason) => (reason.key === 'sort.request' ? reason.entries : []))),
];

/** Those that are neither done nor struck. */
export const openRequests = ({ knowledge }: Pick<Book, 'knowledge'>, line: SortLine): string[] => {
  const { farm, strikes } = knowledge.known;
  const struck = new Set(strikes.struck.map(({ entry }) => entry.id));
  return requestsOf(line).filter((id) => !farm.sorted.has(id) && !struck.has(id));
};

const when = ({ speaking }: Book, entry: Entry): string =>
  `${speaking.format.time(instantText(entry.at))} (${entry.type === 'treatment' ? (entry.data.givenBy ?? entry.author) : entry.author})`;
