/** Addresses that sign a browser in once: for the office computer that runs the server itself. Kept in memory, ten at most. */
import crypto from 'node:crypto';
import { MINUTE } from '../../shared/instant.ts';

export interface Codes {
  /** A code for a device; it is good for ten minutes and for one use. */
  readonly make: (device: string) => string;
  /** The device whose code this is; the code is used up by it. */
  readonly take: (code: string) => string | undefined;
  readonly isGood: (code: string) => boolean;
}

const GOOD_FOR = 10 * MINUTE;
const MOST = 10;

/** `now`: milliseconds of a steady clock. */
export const codesOf = (now: () => number): Codes => {
  const codes = new Map<string, { device: string; until: number }>();
  const good = (code: string) => {
    const found = codes.get(code);
    return found !== undefined && found.until > now() ? found : undefined;
  };
  return {
    make: (device) => {
      const code = crypto.randomBytes(16).toString('base64url');
      if (codes.size >= MOST) codes.clear();
      codes.set(code, { device, until: now() + GOOD_FOR });
      return code;
    },
    take: (code) => {
      const found = good(code);
      codes.delete(code);
      return found?.device;
    },
    isGood: (code) => good(code) !== undefined,
  };
};
