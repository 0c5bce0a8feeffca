/**
 * The shape of a table of what the desk says. The English sentence is its own key, an ICU message; beside it stands the
 * same in every other language that the paper speaks. A language that is left out does not compile.
 *
 * A sentence stands in one table only, that of the room it belongs to. Where one English word is two elsewhere ("none" of
 * groups, "none" of cows), a note after ` ¦ ` tells the keys apart; it is never shown.
 */
import type { Language } from '../../../print/words.ts';

export type InOthers = Readonly<Record<Exclude<Language, 'en'>, string>>;
export type Sentences = Readonly<Record<string, InOthers>>;

/** The English message of a key: what stands before the note. */
export const englishOf = (key: string): string => key.split(' ¦ ')[0] ?? key;
