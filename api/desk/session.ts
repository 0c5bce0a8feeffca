/**
 * Who sits at the desk: a device's token becomes a cookie that a script can't read and another site can't send. The cookie
 * says which device and which person, until when, and bears a mark that only this server can make; the device is looked up
 * at every request, so a revoked one is out at once. Forms bear a mark of the same session, good for one saving.
 */
import crypto from 'node:crypto';
import { z } from 'zod';
import { DAY, type Instant } from '../../shared/instant.ts';

export interface Session {
  readonly device: string;
  /** The author of what is written here. */
  readonly person: string;
  readonly until: Instant;
}

export interface Sessions {
  readonly cookieOf: (session: Session) => string;
  /** Undefined where the cookie is not ours, or over. */
  readonly read: (cookie: string | undefined, now: Instant) => Session | undefined;
  /** A name for one saving, which only this session can use: the same form sent twice is one. */
  readonly onceFor: (session: Session) => string;
  /** The saving's name, where the session may use it. */
  readonly readOnce: (session: Session, once: string) => string | undefined;
}

export const COOKIE = 'byrebook-desk';
export const LASTS = 30 * DAY;

const inCookie = z.strictObject({ device: z.string(), person: z.string(), until: z.number() });

/** `secret`: 32 bytes that this server alone knows. */
export const sessionsOf = (secret: Uint8Array): Sessions => {
  const mark = (purpose: string, text: string): string =>
    crypto.createHmac('sha256', secret).update(`${purpose} ${text}`).digest('base64url');
  const isMarked = (purpose: string, text: string, said: string): boolean => {
    const right = Buffer.from(mark(purpose, text));
    const given = Buffer.from(said);
    return given.length === right.length && crypto.timingSafeEqual(given, right);
  };
  const bodyOf = (session: Session): string => Buffer.from(JSON.stringify(session)).toString('base64url');
  return {
    cookieOf: ({ device, person, until }) => {
      const body = bodyOf({ device, person, until });
      return `${body}.${mark('session', body)}`;
    },
    read: (cookie, now) => {
      const [body = '', said = ''] = (cookie ?? '').split('.');
      if (body === '' || !isMarked('session', body, said)) return undefined;
      const session = inCookie.safeParse(JSON.parse(Buffer.from(body, 'base64url').toString()));
      return session.success && session.data.until > now
        ? { ...session.data, until: session.data.until as Instant }
        : undefined;
    },
    onceFor: (session) => {
      const name = crypto.randomUUID();
      return `${name}.${mark('once', `${bodyOf(session)} ${name}`)}`;
    },
    readOnce: (session, once) => {
      const [name = '', said = ''] = once.split('.');
      return isMarked('once', `${bodyOf(session)} ${name}`, said) ? name : undefined;
    },
  };
};
