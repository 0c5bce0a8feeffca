/**
 * Who may connect to a book. A device's token is seen once, when it is made; the book keeps the hash of its secret part.
 * Devices stand beside the log and not in it: revoking one changes nothing that it said.
 */
import crypto from 'node:crypto';
import { sha256 } from '../../shared/fingerprint.ts';
import { type Instant, instantText } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { all, type Connection, first, prepared, run, sqlFor, type Tables } from './tables.ts';

export interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: string;
  readonly made: string;
  /** RFC 3339; null while it may connect. */
  readonly revoked: string | null;
}

export interface Devices {
  /** Makes a device and its token. Refused where one of that name is in use. */
  readonly add: (name: string, role: string) => { device: Device; token: string };
  readonly list: () => Device[];
  /** The device whose token this is, unless revoked. Takes the same time for a wrong secret as for none such. */
  readonly of: (token: string) => Device | undefined;
  /** False where no device of that name is in use. */
  readonly revoke: (name: string) => boolean;
}

const TOKEN = /^byre_([0-9a-f]{12})_([0-9A-Za-z_-]{43})$/;

/** The part of a token that names its device and is no secret; undefined where it is not a token. */
export const deviceIdIn = (token: string): string | undefined => TOKEN.exec(token)?.[1];

/** Asked at every request, so its SQL is made out once. */
const WITH_ID = sqlFor.selectFrom('devices').selectAll().where('id', '=', '').compile().sql;

/** `now` is asked at each change. */
export const devicesOf = (db: Connection, now: () => Instant): Devices => {
  const columns = ['id', 'name', 'role', 'made', 'revoked'] as const;
  const inUse = (name: string) =>
    first(db, sqlFor.selectFrom('devices').select(columns).where('name', '=', name).where('revoked', 'is', null));
  return {
    add: (name, role) =>
      db
        .transaction(() => {
          if (inUse(name) !== undefined) {
            throw new UserProblem(
              `There is a device "${name}" already; revoke it first, or give this one another name`,
            );
          }
          const id = crypto.randomBytes(6).toString('hex');
          const secret = crypto.randomBytes(32).toString('base64url');
          const last = first(
            db,
            sqlFor.selectFrom('devices').select((row) => row.fn.max('number').as('number')),
          );
          const device: Device = { id, name, role, made: instantText(now()), revoked: null };
          run(
            db,
            sqlFor.insertInto('devices').values({ ...device, number: (last?.number ?? 0) + 1, hash: sha256(secret) }),
          );
          return { device, token: `byre_${id}_${secret}` };
        })
        .immediate(),
    list: () => all(db, sqlFor.selectFrom('devices').select(columns).orderBy('number')),
    of: (token) => {
      const [, id = '', secret = ''] = TOKEN.exec(token) ?? [];
      const row = prepared<Tables['devices']>(db, WITH_ID).get(id);
      const said = Buffer.from(sha256(secret), 'hex');
      const right = crypto.timingSafeEqual(said, Buffer.from(row?.hash ?? '0'.repeat(64), 'hex'));
      if (row === undefined || !right || row.revoked !== null) return undefined;
      return { id: row.id, name: row.name, role: row.role, made: row.made, revoked: row.revoked };
    },
    revoke: (name) =>
      db
        .transaction(() => {
          const device = inUse(name);
          if (device === undefined) return false;
          run(
            db,
            sqlFor
              .updateTable('devices')
              .set({ revoked: instantText(now()) })
              .where('id', '=', device.id),
          );
          return true;
        })
        .immediate(),
  };
};
