/** What a form for an entry is drawn from: what is known, who writes, which cow it is about. */
import { QUARTERS } from '../../../events/fields.ts';
import type { CowFile } from '../../../projections/cow-file.ts';
import { cowsBy } from '../../../projections/standing.ts';
import type { Instant } from '../../../shared/instant.ts';
import type { Knowledge } from '../../tonight.ts';
import type { Ask, Desk, Visitor } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { type Sentence, say } from '../say.tsx';
import type { Choice } from './fields.tsx';

export interface Context {
  readonly hand: AtHand;
  readonly knowledge: Knowledge;
  readonly visitor: Visitor;
  readonly now: Instant;
  /** The one cow it is about, where the form knows her. */
  readonly file: CowFile | undefined;
}

/** Thrown where what was typed can't be made into an entry; the message is for the person. */
export class CannotWrite extends Error {}

export const groupsIn = ({ hand, now }: Context): Choice[] =>
  hand.schedule.inForceAt(now).data.groups.map(({ name }): Choice => [name, name]);

/** Listed and not retired. */
export const medicineNames = ({ knowledge }: Context): string[] =>
  [...knowledge.known.farm.listings.values()].flatMap((listings) => {
    const last = listings.at(-1);
    return last === undefined || last.data.retired === true ? [] : [last.data.name];
  });

const QUARTER_WORDS = {
  'left-front': 'left front',
  'right-front': 'right front',
  'left-hind': 'left hind',
  'right-hind': 'right hind',
} as const satisfies Partial<Record<(typeof QUARTERS)[number], Sentence>>;

/** Said for whoever asks. */
export const quarterChoices = (): Choice[] =>
  QUARTERS.flatMap((each): Choice[] =>
    each in QUARTER_WORDS ? [[each, say(QUARTER_WORDS[each as keyof typeof QUARTER_WORDS])]] : [],
  );

/** The cows that a number may mean. */
export const filesOf = ({ knowledge }: Context, number: string): readonly CowFile[] => {
  const keys = new Set(cowsBy(knowledge.known, number));
  return knowledge.known.files.filter(({ animal }) => keys.has(animal.key));
};

export const contextOf = (desk: Desk, { visitor }: Ask, hand: AtHand, cow: string | undefined): Context => {
  const bare: Context = { hand, knowledge: desk.knowing.now(), visitor, now: desk.now(), file: undefined };
  const files = cow === undefined ? [] : filesOf(bare, cow);
  return { ...bare, file: files.length === 1 ? files[0] : undefined };
};

export const clockOf = ({ knowledge, hand, now }: Context) => ({
  known: knowledge.known,
  schedule: hand.schedule,
  now,
});
