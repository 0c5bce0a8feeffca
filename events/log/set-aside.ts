/**
 * What was refused is kept here exactly as it was said, for ever, with the reason. The same line again adds nothing
 * unless it holds somebody besides. Each row's chain value covers the row before it, so none can be changed or taken out
 * unseen. Reading it stands in `set-aside-read.ts`.
 */
import { sha256 } from '../../shared/fingerprint.ts';
import { type Instant, instantText } from '../../shared/instant.ts';
import { asUtf8, namesMore, type Refusal, readable, type Saying, saysMore, together } from '../refusal.ts';
import { chainOf, type Unchained } from './set-aside-chain.ts';
import { keyOf } from './set-aside-key.ts';
import { type SayingRow, sayingIn } from './set-aside-read.ts';
import { all, type Connection, first, run, sqlFor } from './tables.ts';

export interface Refused {
  readonly text: string;
  readonly problem: string;
  readonly pointer?: string;
  readonly id?: string;
  readonly cows: readonly string[];
  readonly mentions: readonly string[];
  readonly door?: string;
}

export interface SettingAside {
  readonly recorded: Instant;
  readonly position: number;
  readonly chain: string;
}

export interface Kept {
  readonly key: string;
  /** The new chain value. */
  readonly chain: string;
  /** Its number, where this added a row. */
  readonly number?: number;
}

/** Keeps a refusal of this book's own, inside the caller's transaction. */
export const setAside = (db: Connection, refused: Refused, at: SettingAside): Kept => {
  const { text, problem, pointer = null, id = null, cows, mentions, door = null } = refused;
  return keep(db, { text, problem, pointer, id, cows, mentions }, { ...at, door, adds: namesMore });
};

/** Keeps what another book refused, where it says more of the line than is kept here. `door`: the peer it came through. */
export const setAsideFrom = (db: Connection, refusal: Refusal, at: SettingAside & { readonly door: string }): Kept =>
  keep(db, refusal, { ...at, adds: saysMore });

interface Keeping extends SettingAside {
  readonly door: string | null;
  readonly adds: (before: Saying, more: Saying) => boolean;
}

const keep = (db: Connection, refusal: Refusal, { recorded, position, chain, door, adds }: Keeping): Kept => {
  const text = asUtf8(refusal.text);
  const hash = sha256(text);
  const [known, ...others] = all<SayingRow & { key: string }>(
    db,
    sqlFor
      .selectFrom('set_aside')
      .select(['key', 'problem', 'pointer', 'id', 'cows', 'mentions'])
      .where('hash', '=', hash)
      .orderBy('number'),
  );
  const key = keyOf(db, hash);
  if (known !== undefined && !adds(together([sayingIn(known), ...others.map(sayingIn)]), readable(refusal)))
    return { key, chain };
  const last = first(
    db,
    sqlFor.selectFrom('set_aside').select((row) => row.fn.max('number').as('number')),
  );
  const row: Unchained = {
    number: (last?.number ?? 0) + 1,
    key: known?.key ?? key,
    hash,
    text,
    problem: asUtf8(refusal.problem),
    pointer: refusal.pointer === null ? null : asUtf8(refusal.pointer),
    id: refusal.id === null ? null : asUtf8(refusal.id),
    cows: JSON.stringify(refusal.cows),
    mentions: JSON.stringify(refusal.mentions),
    recordedtime: instantText(recorded),
    after: position,
    door,
  };
  const now = chainOf(chain, row);
  run(db, sqlFor.insertInto('set_aside').values({ ...row, chain: now }));
  return { key, chain: now, number: row.number };
};
