/**
 * What each role may read and write. A machine at a gate says what it counted; the crew say what they did; what decides
 * whether milk is held or free, what the farm is and what the labels say is the manager's. Pure: no book, no request.
 */
import type { EntryType } from '../../events/kinds.ts';

export const ROLES = ['manager', 'crew', 'record-keeper', 'machine', 'book'] as const;
export type Role = (typeof ROLES)[number];

/** What a request may ask for. */
export type Right = 'push' | 'log' | 'carry' | 'sheets' | 'herd' | 'issue' | 'metrics';

interface RoleRights {
  readonly rights: readonly Right[];
  /** Kinds it may write; a book relays every kind. */
  readonly writes: ReadonlySet<string> | 'everything';
  /** Strikes anything, not only what it said itself. */
  readonly strikesAll: boolean;
}

const kinds = (...types: readonly EntryType[]): ReadonlySet<string> => new Set(types);

const RIGHTS: Readonly<Record<Role, RoleRights>> = {
  manager: {
    rights: ['push', 'log', 'sheets', 'herd', 'issue', 'metrics'],
    writes: 'everything',
    strikesAll: true,
  },
  crew: {
    rights: ['push', 'sheets', 'herd'],
    writes: kinds(
      'calving',
      'abortion',
      'service',
      'dry-off',
      'treatment',
      'milk-hold',
      'group-move',
      'sort-request',
      'sort-done',
      'head-count',
      'milk-record',
      'milking-finished',
      'tank-collection',
      'sheet-returned',
      'entry-struck',
    ),
    strikesAll: false,
  },
  'record-keeper': {
    rights: ['push', 'log', 'sheets', 'herd', 'metrics'],
    writes: kinds(
      'medicine-received',
      'medicine-disposed',
      'cow-entered',
      'number-changed',
      'cow-left',
      'service',
      'pregnancy-check',
      'sheet-returned',
      'entry-struck',
    ),
    strikesAll: false,
  },
  machine: {
    rights: ['push', 'sheets'],
    writes: kinds('milk-record', 'sort-done', 'head-count', 'milking-finished', 'milk-hold'),
    strikesAll: false,
  },
  book: { rights: ['push', 'log', 'carry'], writes: 'everything', strikesAll: true },
};

export const isRole = (text: string): text is Role => ROLES.some((role) => role === text);

export const mayAsk = (role: Role, right: Right): boolean => RIGHTS[role].rights.includes(right);

/** The kinds a role may write, for people to read; null where it is all of them. */
export const kindsFor = (role: Role): readonly string[] | null => {
  const { writes } = RIGHTS[role];
  return writes === 'everything' ? null : [...writes];
};

export const mayWrite = (role: Role, type: string): boolean => {
  const { writes } = RIGHTS[role];
  return writes === 'everything' || writes.has(type);
};

export interface Writer {
  readonly name: string;
  readonly role: Role;
}

/**
 * Why a device may not write this entry, if so: the sentence and the field at fault. `saidBy` gives the sources under
 * which an entry stands in the book or in the same batch; none where it is not known here.
 */
export const unwritable = (
  writer: Writer,
  said: { readonly type: string; readonly source: string; readonly data: unknown },
  saidBy: (entry: string) => readonly string[],
): { readonly problem: string; readonly pointer: string } | undefined => {
  const { strikesAll } = RIGHTS[writer.role];
  if (said.source !== writer.name) {
    return {
      problem: `"source" says ${JSON.stringify(said.source)}, but this device is "${writer.name}"; leave it out`,
      pointer: '/source',
    };
  }
  if (!mayWrite(writer.role, said.type)) {
    return {
      problem: `a device of the role ${writer.role} may not write a ${said.type}; let the manager enter it`,
      pointer: '/type',
    };
  }
  if (said.type !== 'entry-struck' || strikesAll) return undefined;
  const struck = typeof said.data === 'object' && said.data !== null && 'entry' in said.data ? said.data.entry : '';
  const sources = saidBy(String(struck));
  return sources.length > 0 && sources.every((source) => source === writer.name)
    ? undefined
    : {
        problem: `this device strikes only what it said itself, and "${String(struck)}" ${sources.length === 0 ? 'is not known here' : `was said by ${sources.join(', ')}`}; let the manager strike it`,
        pointer: '/data/entry',
      };
};
