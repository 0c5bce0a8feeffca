/** What a filled-in form takes from the paper: what is to be recorded, what goes into the note, what was not ticked, what is wrong. */
import type { Draft } from '../saving.ts';

/** One thing that the paper says, as it is said back and as it is recorded. */
export interface Taken {
  /** Field of the form that it stands in. */
  readonly field: string;
  readonly says: string;
  readonly drafts: readonly Draft[];
  /** A dose or a hold: what becomes of her milk is said before it is saved. */
  readonly cow?: string | undefined;
  /** The group that its cow stood in, for what takes her to another. */
  readonly from?: string | undefined;
}

/** Gathers what the lines of one form say. */
export interface Gathering {
  readonly taken: Taken[];
  /** What the paper says and no entry has room for; kept in the note of the return. */
  readonly notes: string[];
  readonly notTicked: string[];
  /** Groups whose box is empty. */
  readonly uncounted: string[];
  /** Ticked, but the book has it. */
  readonly shut: string[];
  readonly cautions: string[];
  /** By field. */
  readonly troubles: Map<string, string>;
}

export const gathering = (): Gathering => ({
  taken: [],
  notes: [],
  notTicked: [],
  uncounted: [],
  shut: [],
  cautions: [],
  troubles: new Map(),
});

const LONGEST_NOTE = 480;

/** The notes as texts that each fit into one return; nothing is cut off. */
export const noteTexts = (notes: readonly string[]): string[] => {
  const texts: string[] = [];
  for (const note of notes.flatMap(partsOf)) {
    const last = texts.at(-1);
    if (last !== undefined && last.length + note.length + 2 <= LONGEST_NOTE)
      texts[texts.length - 1] = `${last}; ${note}`;
    else texts.push(note);
  }
  return texts;
};

const partsOf = (note: string): string[] => {
  const letters = [...note.replace(/\s+/g, ' ').trim()];
  const parts: string[] = [];
  // Half the length: a letter may be two units long.
  for (let from = 0; from < letters.length; from += LONGEST_NOTE / 2)
    parts.push(
      letters
        .slice(from, from + LONGEST_NOTE / 2)
        .join('')
        .trim(),
    );
  return parts.filter((part) => part !== '');
};
