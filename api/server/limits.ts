/**
 * How much and how often. Each map here is bounded, so that no stream of strangers can fill the memory. Times are
 * milliseconds of a steady clock that the caller reads.
 */
const MOST_KEYS = 10_000;

/** Sets and keeps a map from growing without end: the oldest key goes. */
const keep = <V>(map: Map<string, V>, key: string, value: V): void => {
  map.delete(key);
  map.set(key, value);
  if (map.size > MOST_KEYS)
    for (const oldest of map.keys()) {
      map.delete(oldest);
      break;
    }
};

export interface Pace {
  /** Seconds to wait, or 0: the request is counted and may go on. */
  readonly take: (key: string, now: number) => number;
}

/** So many requests at once, and so many a second after that. */
export const paceOf = (burst: number, perSecond: number): Pace => {
  const buckets = new Map<string, { left: number; at: number }>();
  return {
    take: (key, now) => {
      const have = buckets.get(key) ?? { left: burst, at: now };
      const left = Math.min(burst, have.left + ((now - have.at) / 1_000) * perSecond);
      if (left < 1) {
        keep(buckets, key, { left, at: now });
        return Math.max(1, Math.ceil((1 - left) / perSecond));
      }
      keep(buckets, key, { left: left - 1, at: now });
      return 0;
    },
  };
};

export interface Allowance {
  /** Seconds until something is allowed again; 0 when it is. */
  readonly wait: (key: string, now: number) => number;
  /** May go below nothing: how much it was is known only afterwards. */
  readonly spend: (key: string, amount: number, now: number) => void;
}

/** So much at once, and so much an hour after that. */
export const allowanceOf = (most: number, perHour: number): Allowance => {
  const accounts = new Map<string, { left: number; at: number }>();
  const leftOf = (key: string, now: number): number => {
    const have = accounts.get(key) ?? { left: most, at: now };
    return Math.min(most, have.left + ((now - have.at) / 3_600_000) * perHour);
  };
  return {
    wait: (key, now) => {
      const left = leftOf(key, now);
      return left >= 1 ? 0 : Math.ceil(((1 - left) * 3_600) / perHour);
    },
    spend: (key, amount, now) => {
      if (amount > 0) keep(accounts, key, { left: leftOf(key, now) - amount, at: now });
    },
  };
};

export interface Lockout {
  /** Seconds that this token from this address has to wait; 0 when it may be tried. */
  readonly wait: (token: string, address: string, now: number) => number;
  readonly wrong: (token: string, address: string, now: number) => void;
  readonly right: (token: string, address: string) => void;
}

const FREE_TRIES = 10;
const FIRST_WAIT = 30_000;
const LONGEST_WAIT = 3_600_000;

/**
 * After ten wrong tokens an address waits, each time twice as long; so does a token's public part, wherever it is tried
 * from, but for the address that had it right: others' guesses must not lock a device out.
 */
export const lockoutOf = (): Lockout => {
  const tries = new Map<string, { count: number; at: number; until: number }>();
  const trusted = new Map<string, true>();
  const waitOf = (key: string, now: number): number => Math.max(0, (tries.get(key)?.until ?? 0) - now);
  const count = (key: string, now: number): void => {
    const have = tries.get(key);
    const forgotten = have === undefined || now - Math.max(have.at, have.until) > LONGEST_WAIT;
    const made = forgotten ? 1 : have.count + 1;
    const over = made - FREE_TRIES;
    const until = over < 0 ? 0 : now + Math.min(LONGEST_WAIT, FIRST_WAIT * 2 ** over);
    keep(tries, key, { count: made, at: now, until });
  };
  return {
    wait: (token, address, now) => {
      const known = trusted.has(`${token} ${address}`);
      const longest = known ? 0 : Math.max(waitOf(`token ${token}`, now), waitOf(`address ${address}`, now));
      return Math.ceil(longest / 1_000);
    },
    wrong: (token, address, now) => {
      count(`address ${address}`, now);
      if (token !== '') count(`token ${token}`, now);
      trusted.delete(`${token} ${address}`);
    },
    right: (token, address) => {
      tries.delete(`token ${token}`);
      keep(trusted, `${token} ${address}`, true);
    },
  };
};
