/**
 * Entries as a whole log is held in memory: by the million. What is seldom asked of one (its content hash, when it was
 * recorded, through which book it came) lies beside it, in one piece of memory for a page of the log.
 */
import type { Instant } from '../shared/instant.ts';
import type { Entry } from './entry.ts';
import type { EntryType } from './kinds.ts';

const BYTES = 32;

/** What is kept of a page's entries beside them. */
export interface EntryPage {
  /** Position of its first row; every position from there on has a row. */
  readonly first: number;
  readonly contents: Uint8Array;
  /** When each happened, and when it was recorded. */
  readonly happened: Float64Array;
  readonly recorded: Float64Array;
  /** Contents that are no SHA-256 in lower-case hexadecimal digits: somebody wrote them into the file. */
  readonly odd: Map<number, string>;
  readonly via: (string | undefined)[];
}

/** Room for that many rows from a position on. */
export const entryPage = (first: number, rows: number): EntryPage => {
  const room = new ArrayBuffer(rows * (16 + BYTES));
  return {
    first,
    happened: new Float64Array(room, 0, rows),
    recorded: new Float64Array(room, rows * 8, rows),
    contents: new Uint8Array(room, rows * 16),
    odd: new Map(),
    via: [],
  };
};

/** What a stored entry says of itself, each field as `entry.ts` has it. */
export interface Stated {
  readonly id: string;
  readonly type: EntryType;
  readonly subject: string | undefined;
  readonly at: Instant;
  readonly author: string;
  readonly source: string;
  readonly data: unknown;
  readonly content: string;
  readonly position: number;
  readonly recordedAt: Instant;
  readonly via: string | undefined;
}

/** One entry of a page. What lies on the page is not copied with it: see `entryLike`. */
export class StoredEntry implements Stated {
  readonly id: string;
  readonly type: EntryType;
  readonly subject: string | undefined;
  readonly author: string;
  readonly source: string;
  readonly data: unknown;
  readonly position: number;
  readonly #page: EntryPage;

  constructor(stated: Stated, page: EntryPage) {
    this.id = stated.id;
    this.type = stated.type;
    this.subject = stated.subject;
    this.author = stated.author;
    this.source = stated.source;
    this.data = stated.data;
    this.position = stated.position;
    this.#page = page;
    const row = stated.position - page.first;
    page.happened[row] = stated.at;
    page.recorded[row] = stated.recordedAt;
    if (!layDigits(stated.content, page.contents, row * BYTES)) page.odd.set(row, stated.content);
    if (stated.via !== undefined) page.via[row] = stated.via;
  }

  get at(): Instant {
    const { happened, first } = this.#page;
    return happened[this.position - first] as Instant;
  }

  get content(): string {
    const { contents, odd, first } = this.#page;
    const row = this.position - first;
    const bytes = contents.subarray(row * BYTES, (row + 1) * BYTES);
    return odd.get(row) ?? Buffer.from(bytes.buffer, bytes.byteOffset, BYTES).toString('hex');
  }

  get recordedAt(): Instant {
    const { recorded, first } = this.#page;
    return recorded[this.position - first] as Instant;
  }

  toJSON(): object {
    return entryLike(this as unknown as Entry, {});
  }

  get via(): string | undefined {
    return this.#page.via[this.position - this.#page.first];
  }
}

/** An entry that is another but for some fields. */
export const entryLike = <E extends Entry, Fields extends Partial<Stated>>(
  entry: E,
  fields: Fields,
): Omit<E, keyof Fields> & Fields => {
  const { id, type, subject, at, author, source, data, content, position, recordedAt, via } = entry;
  return {
    id,
    type,
    ...(subject === undefined ? {} : { subject }),
    at,
    author,
    source,
    data,
    content,
    position,
    recordedAt,
    ...(via === undefined ? {} : { via }),
    ...fields,
  } as unknown as Omit<E, keyof Fields> & Fields;
};

const NO_DIGIT = -1;

/** What each character is worth as a hexadecimal digit. */
const WORTH = new Int8Array(128).fill(NO_DIGIT);
for (const [worth, digit] of [...'0123456789abcdef'].entries()) WORTH[digit.charCodeAt(0)] = worth;

/** Lays 64 lower-case hexadecimal digits down as bytes; false where the text is anything else. */
const layDigits = (text: string, bytes: Uint8Array, at: number): boolean => {
  if (text.length !== 2 * BYTES) return false;
  let all = 0;
  for (let digit = 0, to = at; digit < text.length; digit += 2, to += 1) {
    const worth = ((WORTH[text.charCodeAt(digit)] ?? NO_DIGIT) << 4) | (WORTH[text.charCodeAt(digit + 1)] ?? NO_DIGIT);
    bytes[to] = worth;
    all |= worth;
  }
  return all >= 0;
};
