/** Who asks: a device's token, as a bearer token or as the session that a page made of it. Wrong tokens lock out. */
import type { Book } from '../../events/book.ts';
import { deviceIdIn } from '../../events/log/devices.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import { isRole, mayAsk, type Right } from '../devices/roles.ts';
import { lockoutOf, paceOf } from './limits.ts';
import { RequestProblem } from './problem.ts';
import type { Caller } from './route.ts';

export interface Callers {
  /** The device behind a token. Throws where there is none, it may not do this, or it asks too often. */
  readonly caller: (token: string | undefined, address: string, right: Right) => Caller;
  /** Whether it may still connect. */
  readonly still: (token: string) => boolean;
}

/** Requests at once and a second; a book reads and writes a month of entries in one go. */
const PACES = { device: [60, 20], book: [300, 100] } as const;

export const callersOf = (book: Book, now: () => number = steadyMilliseconds): Callers => {
  const lockout = lockoutOf();
  const device = paceOf(...PACES.device);
  const bookPace = paceOf(...PACES.book);
  const known = (token: string): Caller | undefined => {
    const found = book.devices.of(token);
    return found !== undefined && isRole(found.role) ? { ...found, role: found.role } : undefined;
  };
  return {
    caller: (token, address, right) => {
      if (token === undefined) {
        throw new RequestProblem('not-signed-in', 'Send "Authorization: Bearer TOKEN"; "device add" makes a token');
      }
      const id = deviceIdIn(token) ?? '';
      const wait = lockout.wait(id, address, now());
      if (wait > 0) {
        throw new RequestProblem('locked-out', `Too many wrong tokens came from there; wait ${wait} seconds`, {
          retryAfter: wait,
        });
      }
      const caller = known(token);
      if (caller === undefined) {
        lockout.wrong(id, address, now());
        throw new RequestProblem(
          'not-signed-in',
          'This token is not good here: it is mistyped, of another book, or revoked; "device list" says which are in use',
        );
      }
      lockout.right(id, address);
      const slow = (caller.role === 'book' ? bookPace : device).take(caller.id, now());
      if (slow > 0) {
        throw new RequestProblem('too-often', `That is too fast; wait ${slow} seconds, then go on`, {
          retryAfter: slow,
        });
      }
      if (!mayAsk(caller.role, right)) {
        throw new RequestProblem('not-allowed', `A device of the role ${caller.role} may not do that`);
      }
      return caller;
    },
    still: (token) => known(token) !== undefined,
  };
};

/** For what is written down about a request: somebody may have put a token where none belongs. */
export const withoutTokens = (text: string): string => text.replace(/byre_[0-9a-f]{12}_[0-9A-Za-z_-]{43}/g, 'byre_…');
