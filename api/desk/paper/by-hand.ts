/** Lines written on the paper by hand: which cow, what, and in words which medicine, which group or why. */
import { QUARTERS } from '../../../events/fields.ts';
import { medicineKey } from '../../../projections/farm.ts';
import { groupsInOrder } from '../../../projections/groups.ts';
import { bearersOnSheet } from '../../../projections/standing.ts';
import { isBarnNumber, officialDigits } from '../../../shared/cow-number.ts';
import { assertNever } from '../../../shared/refusal.ts';
import type { Form } from '../ask.ts';
import { type Draft, idOf } from '../saving.ts';
import { type Sentence, say } from '../say.tsx';
import type { Book } from './already.ts';
import { medicines } from './dry-off-line.ts';
import type { Gathering } from './taken.ts';
import { type Sheet, timeOf } from './taking.ts';

export const WHATS = {
  treatment: 'treated with (medicine)',
  'milk-hold': 'milk out, because',
  'group-move': 'moved to (group)',
  'sort-request': 'to be sorted, because',
  note: 'note only',
} as const satisfies Readonly<Record<string, Sentence>>;
type What = keyof typeof WHATS;
const isWhat = (text: string | undefined): text is What => text !== undefined && Object.hasOwn(WHATS, text);

const FIELDS = ['cow', 'words', 'by', 'time', 'amount', 'unit', 'quarter', 'doses', 'hours'];
/** Ids of courses begun by hand: apart from the ids of entries. */
const COURSES_FROM = 100_000;

export const takeByHand = (book: Book, sheet: Sheet, saving: string, line: number, into: Gathering): void => {
  const wrong = lineByHand(book, sheet, saving, line, into);
  if (wrong !== undefined) into.troubles.set(`hand.${line}`, wrong);
};

/** Takes the line, or gives the sentence that says what is wrong with it. */
const lineByHand = (book: Book, sheet: Sheet, saving: string, line: number, into: Gathering): string | undefined => {
  const field = `hand.${line}`;
  const one = (name: string): string | undefined => sheet.form.one(`${field}.${name}`);
  const what = one('what');
  if (!isWhat(what))
    return FIELDS.some((name) => one(name) !== undefined)
      ? say('Say what was written: a treatment, milk out, a move, a sort request or a note; or empty the line')
      : undefined;
  const [cow, words, by] = [one('cow'), one('words'), one('by')];
  if (words === undefined) return say(WANTED[what]);
  if (what === 'note') {
    const note = `${words}${by === undefined ? '' : ` (${by})`}`;
    into.notes.push(cow === undefined ? note : say('{what}: {said}', { what: cow, said: note }));
    return undefined;
  }
  if (cow === undefined) return say('Say which cow');
  if (!isBarnNumber(cow) && officialDigits(cow) === undefined)
    return say('"{cow}" is not a cow\'s number; read it again, or write the line as a note', { cow: cow.slice(0, 20) });
  const time = timeOf(book, sheet, field, into);
  // What was typed as its time is no time: that trouble stands already.
  if (time === undefined) return into.troubles.get(field);
  const said = saidByHand(book, sheet, what, { cow, words, by, one, course: idOf(saving, COURSES_FROM + line) }, into);
  if (typeof said === 'string') return said;
  const { known } = book.knowledge;
  if (
    bearersOnSheet(known, book.span.schedule, cow, book.span.milking).length === 0 &&
    officialDigits(cow) === undefined
  )
    into.cautions.push(
      say('No cow of the herd is {cow}: saved so, it stands unplaced until somebody settles who it was', { cow }),
    );
  const draft: Draft = { type: what, subject: cow, at: time.at, data: said.data };
  const isHeld = what === 'treatment' || what === 'milk-hold';
  into.taken.push({
    field,
    says: `${cow} ${said.says}, ${time.said}`,
    drafts: [draft],
    ...(isHeld ? { cow } : {}),
  });
  return undefined;
};

interface Words {
  readonly cow: string;
  readonly words: string;
  readonly by: string | undefined;
  readonly one: (name: string) => string | undefined;
  /** Id of a course that the line begins. */
  readonly course: string;
}

const saidByHand = (
  book: Book,
  sheet: Sheet,
  what: Exclude<What, 'note'>,
  { cow, words, by, one, course }: Words,
  into: Gathering,
): { readonly says: string; readonly data: unknown } | string => {
  const { known } = book.knowledge;
  const reason = by === undefined ? words : `${words} (${by})`;
  switch (what) {
    case 'milk-hold':
      return { says: say('milk out of the tank: {reason}', { reason }), data: { reason } };
    case 'sort-request':
      return { says: say('to be sorted: {reason}', { reason }), data: { reason } };
    case 'group-move': {
      const groups = groupsInOrder(book.span.schedule.inForceOn(book.span.milking.day).data).map(({ name }) => name);
      const to = groups.find((name) => name.toLowerCase() === words.toLowerCase());
      if (to === undefined)
        return say('The farm has no group "{group}"; it has {groups}', {
          group: words.slice(0, 40),
          groups: groups.join(', '),
        });
      if (by !== undefined) into.notes.push(say('{cow} moved to {to} by {by}', { cow, to, by }));
      return { says: say('moved to {to}', { to }), data: { to } };
    }
    case 'treatment': {
      const givenBy = by ?? sheet.who;
      if (givenBy === undefined) return say('Say who gave it: the initials, or above who wrote the sheet');
      const more = doseOf(one, course);
      if (typeof more === 'string') return more;
      const medicine = medicines(known).find((name) => medicineKey(name) === medicineKey(words)) ?? words;
      if (!known.farm.listings.has(medicineKey(medicine)))
        into.cautions.push(
          say('{medicine} is not on the list of medicines, so {cow} is held without end; check how it is spelt', {
            medicine,
            cow,
          }),
        );
      const given =
        more.course === undefined
          ? medicine
          : say('{medicine}, dose {dose} of {of}', { medicine, dose: 1, of: more.course.of });
      return {
        says: say('{medicine} given by {by}', { medicine: given, by: givenBy }),
        data: { medicine, givenBy, ...more },
      };
    }
    default:
      return assertNever(what);
  }
};

const WANTED: Readonly<Record<What, Sentence>> = {
  treatment: 'Say which medicine was given',
  'milk-hold': 'Say why her milk stays out',
  'group-move': 'Say which group she went to',
  'sort-request': 'Say why she is to be sorted',
  note: 'Write the note',
};

interface Dose {
  readonly amount?: { readonly value: number; readonly unit: string };
  readonly quarters?: readonly string[];
  readonly course?: { readonly id: string; readonly dose: 1; readonly of: number; readonly everyHours: number };
}

/** How much, into which quarter, and the course that it begins; a sentence where that can't be read. */
const doseOf = (one: (name: string) => string | undefined, course: string): Dose | string => {
  const [amount, unit, quarter, doses, hours] = ['amount', 'unit', 'quarter', 'doses', 'hours'].map(one);
  if ((amount === undefined) !== (unit === undefined))
    return say('Give the amount with its unit, such as 1 tube or 20 ml');
  const value = Number((amount ?? '0').replace(',', '.'));
  if (!Number.isFinite(value) || value < 0)
    return say('"{amount}" is not an amount; write a number', { amount: (amount ?? '').slice(0, 20) });
  if ((doses === undefined) !== (hours === undefined))
    return say('Of a course give both: how many doses in all, and how many hours apart');
  const [of, everyHours] = [Number(doses ?? 1), Number((hours ?? '1').replace(',', '.'))];
  if (!Number.isInteger(of) || of < 1 || of > 100 || !(everyHours > 0))
    return say('The course is not clear: write doses in all and hours apart as numbers, such as 3 and 12');
  const known = QUARTERS.find((each) => each === quarter);
  return {
    ...(unit === undefined ? {} : { amount: { value, unit } }),
    ...(known === undefined ? {} : { quarters: [known] }),
    ...(of < 2 ? {} : { course: { id: course, dose: 1, of, everyHours } }),
  };
};

/** How many lines the form has; never so many that a form grows without end. */
export const linesIn = (form: Form): number => Math.min(60, Math.max(3, Number(form.one('lines') ?? 3) || 3));
