/** What the record keeper takes away: the register, the stock, the checkpoint, proofs. A question that cannot be answered is a sentence. */
import { registerPaper } from '../../../print/register.ts';
import { formatFor } from '../../../print/words/format.ts';
import { wordsFor } from '../../../print/words.ts';
import { medicineStock } from '../../../projections/medicine-stock.ts';
import type { Moment } from '../../../projections/moment.ts';
import { momentOf } from '../../../projections/views-at.ts';
import { wholeRegister } from '../../../projections/whole-register.ts';
import type { Instant } from '../../../shared/instant.ts';
import { addDays, type LocalDay, parseLocalDay } from '../../../shared/local-day.ts';
import { UserProblem } from '../../../shared/refusal.ts';
import { registerCsv, stockCsv } from '../../command-line/medicines-csv.ts';
import { drawPaper } from '../../command-line/paper-file.ts';
import { consistencyOf, inclusionOf } from '../../proof-tree.ts';
import type { Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { inEnglish, say } from '../say.tsx';
import { askedOf } from '../who.tsx';
import type { Problems, Typed } from './records-asked.ts';

export type Taken =
  | { readonly ok: true; readonly response: Response }
  | { readonly ok: false; readonly problems: Problems };

type Take = (desk: Desk, hand: AtHand, typed: Typed) => Taken | Promise<Taken>;

export const DOWNLOADS = {
  'medicines.csv': (_, hand, typed) =>
    inPeriod(hand, typed, (register) => file(register.csv, 'text/csv; charset=utf-8', `medicines${register.name}.csv`)),
  'medicines.pdf': (desk, hand, typed) =>
    inPeriod(hand, typed, async (register) => {
      const { known, asOf, position, root } = hand.answer;
      const bytes = await drawPaper(desk.book, { known, asOf, position, root }, undefined, (voice) =>
        registerPaper(register.made, voice),
      );
      return new Response(Uint8Array.from(bytes), {
        headers: {
          'content-type': 'application/pdf',
          'content-disposition': `inline; filename="medicines${register.name}.pdf"`,
        },
      });
    }),
  'stock.csv': (_, { answer }) =>
    taken(file(stockCsv(medicineStock(answer.known)), 'text/csv; charset=utf-8', 'medicine-stock.csv')),
  'checkpoint.txt': ({ book }) => taken(file(book.checkpoint(), 'text/plain; charset=utf-8', 'checkpoint.txt')),
  'inclusion.json': ({ book }, _, { entry }) =>
    proof('entry', entry, say('Say which entry: its id, or its position'), (said) => inclusionOf(book, said)),
  'consistency.json': ({ book }, _, { older }) =>
    proof('older', older, say('Say which older position, as printed on a sheet'), (said) => consistencyOf(book, said)),
} as const satisfies Record<string, Take>;

const taken = (response: Response): Taken => ({ ok: true, response });

const file = (text: string, type: string, name: string): Response =>
  new Response(text, { headers: { 'content-type': type, 'content-disposition': `attachment; filename="${name}"` } });

const proof = (field: string, said: string | undefined, asks: string, make: (said: string) => unknown): Taken => {
  if (said === undefined) return { ok: false, problems: { [field]: asks } };
  try {
    return taken(file(`${JSON.stringify(make(said), null, 2)}\n`, 'application/json', `${field}-proof.json`));
  } catch (error) {
    if (!(error instanceof UserProblem)) throw error;
    return { ok: false, problems: { [field]: inEnglish(error.message) } };
  }
};

interface RegisterMade {
  readonly made: ReturnType<typeof wholeRegister>;
  readonly csv: string;
  /** Of the file: the days asked for. */
  readonly name: string;
}

/** The register from a date to a date, both included and both optional. */
const inPeriod = async (
  hand: AtHand,
  { from, to }: Typed,
  make: (register: RegisterMade) => Response | Promise<Response>,
): Promise<Taken> => {
  const moment = momentOf(hand.answer.known, askedOf(hand.answer));
  if (moment === undefined) return { ok: false, problems: { from: say('This book has no farm yet; set it up first') } };
  const first = dayOf(from);
  const last = dayOf(to);
  if (typeof first === 'object' || typeof last === 'object')
    return {
      ok: false,
      problems: {
        ...(typeof first === 'object' ? { from: inEnglish(first.problem) } : {}),
        ...(typeof last === 'object' ? { to: inEnglish(last.problem) } : {}),
      },
    };
  if (first !== undefined && last !== undefined && last < first)
    return { ok: false, problems: { to: say('The last day is before the first; change one of them') } };
  return taken(await make(registerOf(hand, moment, first, last)));
};

const dayOf = (text: string | undefined): LocalDay | undefined | { readonly problem: string } => {
  if (text === undefined) return undefined;
  const day = parseLocalDay(text);
  return day.ok ? day.value : { problem: day.problem };
};

const registerOf = (
  { answer }: AtHand,
  moment: Moment,
  first: LocalDay | undefined,
  last: LocalDay | undefined,
): RegisterMade => {
  const { zone } = moment.schedule.inForceAt(answer.asOf);
  const made = wholeRegister(answer.known, moment, {
    from: first === undefined ? undefined : zone.startOfDay(first),
    to: last === undefined ? undefined : ((zone.startOfDay(addDays(last, 1)) - 1) as Instant),
    fromDay: first,
    toDay: last,
  });
  // Every date with its year: the register is read years later.
  const format = formatFor(wordsFor('en'), { zone });
  const times = (instant: string | null) => (instant === null ? 'without end' : format.time(instant));
  const name = [first, last].flatMap((day) => (day === undefined ? [] : [`-${day}`])).join('');
  return { made, csv: registerCsv(made.rows, made.struck.doses, times, made.mayBeOf), name };
};
