/** An entry of the demo, and when it reached the book. Ids are UUID v7 with every part given, so they never change. */
import { v7 as uuidInTime } from 'uuid';
import type { Said } from '../events/entry.ts';
import type { DataOf, EntryType } from '../events/kinds.ts';
import { sha256 } from '../shared/fingerprint.ts';
import { type Instant, instantText, MINUTE, plusMilliseconds } from '../shared/instant.ts';
import { byText } from '../shared/text-order.ts';
import { DEMO_NOW } from './calendar.ts';
import { CREW } from './demo-farm.ts';

export interface Arrival {
  readonly said: Said;
  readonly recordedAt: Instant;
}

export interface SayOptions {
  readonly author?: keyof typeof CREW;
  /** When the book got it; a few minutes after it happened where left out. */
  readonly recordedAt?: Instant;
  /** Tells apart two entries of one kind about one cow at one time. */
  readonly key?: string;
}

/** The id of the entry that `say` makes of the same words. */
export const demoId = (type: EntryType, subject: string | undefined, time: Instant, key = ''): string => {
  const digits = sha256(['demo', type, subject ?? 'farm', time, key].join('|'));
  const random = Uint8Array.from({ length: 16 }, (_, index) =>
    Number.parseInt(digits.slice(index * 2, index * 2 + 2), 16),
  );
  return uuidInTime({ msecs: time, seq: Number.parseInt(digits.slice(32, 40), 16) >>> 1, random });
};

export const say = <T extends EntryType>(
  type: T,
  subject: string | undefined,
  time: Instant,
  data: DataOf<T>,
  { author = 'nuala', recordedAt, key }: SayOptions = {},
): Arrival => {
  const id = demoId(type, subject, time, key);
  const source = CREW[author].source;
  return {
    recordedAt: recordedAt ?? arrival(time, source, id),
    said: {
      specversion: '1.0',
      id,
      source,
      type,
      ...(subject === undefined ? {} : { subject }),
      time: instantText(time),
      author: CREW[author].name,
      data,
    },
  };
};

/** The office writes at once; a phone sends when it finds a signal, up to three quarters of an hour later. */
const arrival = (time: Instant, source: string, id: string): Instant => {
  const minutes = source === 'phone' ? 3 + (Number.parseInt(sha256(id).slice(0, 4), 16) % 42) : 2;
  return Math.min(plusMilliseconds(time, minutes * MINUTE), plusMilliseconds(DEMO_NOW, -MINUTE)) as Instant;
};

/** In the order the book got them. */
export const byArrival = (a: Arrival, b: Arrival): number =>
  a.recordedAt - b.recordedAt || byText(a.said.time, b.said.time) || byText(a.said.id, b.said.id);
