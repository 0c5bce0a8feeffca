/** Requests that no client of ours would send: bodies cut and stuffed, entries with odd fields, headers and addresses out of order. */
import { BATCH } from '../api/server/a-server.ts';
import type { Dice } from './dice.ts';
import { batchOf } from './doses.ts';

const PATHS = [
  '/sync/pull?after=0&limit=20',
  '/sync/pull?after=-1&limit=x',
  '/sync/continuation?from=1&to=9',
  '/sync/book',
  '/checkpoint',
  '/metrics',
  '/healthz',
  '/openapi.json',
  '/sign-in',
  '/write/treatment',
  '/herd?find=%ff',
  '/cows',
  '/milkings/next/x',
  '/issued/%00.pdf',
  '/desk/../package.json',
];
/** These read the whole book, so they come seldom. */
const SLOW_PATHS = [
  '/cows/101',
  '/cows/%00',
  '/cows/101%0d%0aX:%20y',
  '/why/101?milking=%2e%2e%2f',
  '/milkings/2026-03-14/afternoon/sheets/sort.json',
  '/milkings/2026-03-14/afternoon/sheets/%2e%2e%2fsort.json',
  '/milkings/9999-99-99/x/sheets/sort.json',
  '/issued/ACEF-3479-K.pdf',
];
const TYPES = ['application/json', 'text/plain', 'application/x-www-form-urlencoded', '', 'é'];
const PIECES = ['[', '{', '"', '\\', '1e999', 'null,', '__proto__', '\ud800', '\u0000', '\u202e'];
const ODD: readonly unknown[] = [null, true, -1, 1e21, '', '\u0000', '\u202e', '101 ', [], {}, [[]], 'x'.repeat(2_000)];

/** The text, cut, stuffed or doubled in a few places. */
export const broken = (text: string, dice: Dice): string => {
  let made = text;
  for (let cuts = dice.whole(1, 4); cuts > 0; cuts -= 1) {
    const at = dice.whole(0, made.length);
    const how = dice.whole(0, 5);
    if (how === 0) made = made.slice(0, at);
    else if (how === 1) made = made.slice(0, at) + String.fromCharCode(dice.whole(0, 0x3ff)) + made.slice(at);
    else if (how === 2) made = made.slice(0, at) + made.slice(at + dice.whole(1, 30));
    else if (how === 3) made = made.slice(0, at) + dice.oneOf(PIECES) + made.slice(at);
    else if (how === 4) made = made + made.slice(at, at + 200);
    else made = '['.repeat(dice.whole(1, 300)) + made;
  }
  return made;
};

/** JSON that can be read, of entries that mostly cannot: a field gone, misspelt, or of another kind than it must be. */
const oddBatch = (nth: number, dice: Dice): string =>
  JSON.stringify(
    batchOf(`f${nth}`, dice.whole(0, 3), dice.whole(1, 3)).map((entry) => {
      if (dice.chance(0.1)) return dice.oneOf(ODD);
      const field = dice.oneOf([...Object.keys(entry), 'source', 'sequence', 'via', 'colour']);
      if (dice.chance(0.3)) delete entry[field];
      else entry[field] = dice.oneOf(ODD);
      return entry;
    }),
  );

const bodyOf = (nth: number, dice: Dice): string => {
  if (dice.chance(0.15)) return oddBatch(nth, dice);
  const body = JSON.stringify(batchOf(`f${nth}`, dice.whole(0, 3), dice.whole(0, 3)));
  return dice.chance(0.93) ? broken(body, dice) : body;
};

const headersOf = (token: string, dice: Dice): Headers => {
  const headers = new Headers({ host: dice.chance(0.97) ? '127.0.0.1' : 'elsewhere.example' });
  const put = (name: string, value: string): void => {
    try {
      headers.set(name, value);
    } catch {
      // Not a header that any program can send.
    }
  };
  put('authorization', dice.chance(0.97) ? `Bearer ${token}` : broken(`Bearer ${token}`, dice));
  put('content-type', dice.chance(0.85) ? BATCH : dice.oneOf(TYPES));
  if (dice.chance(0.1)) put('byrebook-time', broken('2026-03-14T12:00:00Z', dice));
  if (dice.chance(0.05)) put('content-length', String(dice.whole(0, 1e9)));
  if (dice.chance(0.04)) put('content-encoding', dice.oneOf(['gzip', 'br', 'x']));
  if (dice.chance(0.04)) put('origin', dice.oneOf(['null', 'https://elsewhere.example', 'http://127.0.0.1']));
  if (dice.chance(0.04)) put('sec-fetch-site', dice.oneOf(['cross-site', 'same-origin', 'x']));
  if (dice.chance(0.04)) put('last-event-id', broken('12', dice));
  if (dice.chance(0.04)) put('x-request-id', broken('a-request', dice));
  return headers;
};

/** The nth request. Every device has its turn, and one token in ten is not right. */
export const brokenRequest = (dice: Dice, tokens: readonly string[], nth: number): Request => {
  const right = tokens[nth % tokens.length] ?? '';
  const token = dice.chance(0.9) ? right : broken(right, dice);
  const push = dice.chance(0.7);
  const path = push ? '/sync/push' : dice.oneOf(dice.chance(0.003) ? SLOW_PATHS : PATHS);
  const methods = ['GET', 'GET', 'GET', 'POST', 'PUT', 'DELETE', 'HEAD', 'OPTIONS', 'PATCH'];
  const method = push ? 'POST' : dice.oneOf(methods);
  return new Request(`http://127.0.0.1${path}`, {
    method,
    headers: headersOf(token, dice),
    ...(method === 'GET' || method === 'HEAD' ? {} : { body: bodyOf(nth, dice) }),
  });
};
