/**
 * One resource on its way in, and what becomes of it. Its identity is `meta.source` with `meta.sourceId`; `meta.modified` says
 * which version of it this is.
 */
import { v5 as uuidFromName } from 'uuid';
import type { EntryType } from '../../events/kinds.ts';
import type { Instant } from '../../shared/instant.ts';
import type { Fields } from './in-fields.ts';
import type { Identifier } from './resource.ts';

export interface Incoming {
  /** Short and in lower case, without `icar` and `Resource`: `treatmentevent`. */
  readonly kind: string;
  /** As the file names it, for people. */
  readonly name: string;
  readonly fields: Fields;
  readonly source: string;
  readonly sourceId: string;
  /** From source and sourceId; the same for every version. */
  readonly base: string;
  /** Tells apart what one resource says of several animals or doses. */
  readonly part: string;
  readonly modified: Instant;
  readonly deleted: boolean;
  readonly creator: string | undefined;
  readonly validFrom: Instant | undefined;
  readonly animal: Identifier | undefined;
  /** The whole of it as JSON, to be set aside if it is refused. */
  readonly text: string;
  /** Doses that a treatment program lists. */
  readonly nested: readonly Incoming[];
}

/** What a withdrawal states: an instant, or `open` where it names no end. Left out: not stated, so not known. */
export interface Stated {
  readonly milk?: Instant | 'open';
  readonly meat?: Instant | 'open';
}

/** An entry in the making. */
export interface Draft {
  readonly from: Incoming;
  readonly part: string;
  readonly type: EntryType;
  readonly subject: string;
  readonly at: Instant;
  readonly data: Readonly<Record<string, unknown>>;
  /** Later than `from.modified` where other resources add to it. */
  readonly modified: Instant;
  readonly stated?: Stated;
}

export type Outcome =
  | {
      readonly is: 'taken';
      readonly drafts: readonly Draft[];
      readonly notes: readonly string[];
      /** Parts of it that could not be taken. */
      readonly refused: readonly Refused[];
    }
  /** Set aside: holds these cows until settled. */
  | ({ readonly is: 'refused' } & Refused)
  /** Nothing that an entry could say. */
  | { readonly is: 'not-used'; readonly why: string };

export interface Refused {
  readonly problem: string;
  readonly cows: readonly string[];
}

/** Name space of ids made from another system's; made once for Byrebook. */
const ID_SPACE = 'b7f6a7c4-2d0f-4b8e-9f57-0c9a4f0f6f11';

export const baseOf = (source: string, sourceId: string): string => uuidFromName(`${source}\n${sourceId}`, ID_SPACE);

/** The same version of the same resource has the same id, so the same file twice adds nothing. */
export const entryIdOf = (draft: Pick<Draft, 'from' | 'part' | 'modified'>): string => {
  const parts = [draft.from.part, draft.part].filter((part) => part !== '');
  return [draft.from.base, String(draft.modified), ...parts].join('.');
};

export interface VersionId {
  readonly base: string;
  readonly modified: number;
  readonly part: string;
}

const VERSION = /^([0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12})\.(-?\d+)(?:\.(.+))?$/;

export const versionOf = (id: string): VersionId | undefined => {
  const found = VERSION.exec(id);
  return found === null ? undefined : { base: found[1] ?? '', modified: Number(found[2]), part: found[3] ?? '' };
};

export const taken = (
  drafts: readonly Draft[],
  notes: readonly string[] = [],
  refused: readonly Refused[] = [],
): Outcome => ({ is: 'taken', drafts, notes, refused });
export const refusal = (problem: string, cows: readonly string[] = []): Outcome => ({ is: 'refused', problem, cows });
export const notUsed = (why: string): Outcome => ({ is: 'not-used', why });
