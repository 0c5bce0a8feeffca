/** Which moment and which milking the record keeper asks about, read from what was typed; what is wrong stands beside its field. */
import type { Child } from 'hono/jsx';
import { parseLocalDay } from '../../../shared/local-day.ts';
import { parseSheetRef } from '../../../shared/sheet-ref.ts';
import type { ReplayQuestion } from '../../replay.ts';
import type { Ask, Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { inEnglish, say } from '../say.tsx';
import { readWall } from '../wall-time.ts';

/** What a form of the page sent, by field. */
export type Typed = Readonly<Record<string, string>>;
export type Problems = Readonly<Record<string, Child>>;

export const typedIn = (fields: Iterable<[string, string]>): Typed =>
  Object.fromEntries([...fields].map(([name, text]) => [name, text.trim()] as const).filter(([, text]) => text !== ''));

export const typedInQuery = ({ url }: Ask): Typed => typedIn(url.searchParams);

type Asked =
  | { readonly ok: true; readonly question: ReplayQuestion }
  | { readonly ok: false; readonly problems: Problems };

export const askedIn = (desk: Desk, hand: AtHand, typed: Typed): Asked => {
  const { at, position, ref } = typed;
  const ways = [at, position, ref].filter((each) => each !== undefined);
  if (ways.length !== 1)
    return refused({
      at:
        ways.length === 0
          ? say('Say the moment in one way: a date and time, a position, or the ref of a set of sheets')
          : say(
              'Say the moment in one way: a date and time, a position, or the ref of a set of sheets; {n} are filled in',
              {
                n: String(ways.length),
              },
            ),
    });
  if (ref !== undefined) return byRef(hand, ref);
  const milking = milkingIn(hand, typed);
  const problems: Record<string, Child> = milking.ok ? {} : { date: milking.problem };
  if (position !== undefined) {
    const last = desk.book.head().position;
    const isOne = /^\d{1,10}$/.test(position) && Number(position) >= 1 && Number(position) <= last;
    if (!isOne)
      problems.position = say('"{typed}" is not a position of this book; give a whole number from 1 to {last}', {
        typed: position.slice(0, 20),
        last: String(last),
      });
    return milking.ok && isOne
      ? { ok: true, question: { milking: milking.id, position: Number(position) } }
      : refused(problems);
  }
  const knownAt = readWall(hand.schedule.inForceAt(hand.answer.asOf).zone, at ?? '');
  if (!knownAt.ok) return refused({ ...problems, at: knownAt.problem });
  if (knownAt.value > desk.now()) problems.at = say('That is still to come; give a moment that has been');
  return milking.ok && problems.at === undefined
    ? { ok: true, question: { milking: milking.id, knownAt: knownAt.value } }
    : refused(problems);
};

const refused = (problems: Problems): Asked => ({ ok: false, problems });

const byRef = ({ answer }: AtHand, typed: string): Asked => {
  const ref = parseSheetRef(typed);
  if (!ref.ok) return refused({ ref: inEnglish(ref.problem) });
  return answer.known.farm.issued.some(({ data }) => data.ref === ref.value)
    ? { ok: true, question: { ref: ref.value } }
    : refused({ ref: say('No set {ref} was issued that this book knows of; check the ref', { ref: ref.value }) });
};

type Milking = { readonly ok: true; readonly id: string } | { readonly ok: false; readonly problem: string };

const milkingIn = ({ schedule }: AtHand, { date = '', name = '' }: Typed): Milking => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date))
    return { ok: false, problem: say('Say which milking: its date, and its name') };
  const found = schedule.find(`${date}/${name}`);
  if (found !== undefined) return { ok: true, id: found.id };
  const day = namesOn(schedule, date);
  return {
    ok: false,
    problem:
      day.length === 0
        ? say('{date} is a date without milkings; check it', { date })
        : say('On {date} there is no milking "{name}", only {names}', {
            date,
            name: name.slice(0, 80),
            names: day.join(', '),
          }),
  };
};

const namesOn = (schedule: AtHand['schedule'], date: string): readonly string[] => {
  const day = parseLocalDay(date);
  return day.ok ? schedule.on(day.value).map(({ name }) => name) : [];
};
