/**
 * A device as it should be: what it was not told is recorded it sends again, and from what it saw it goes on. These run in
 * processes of their own too, so they import nothing heavy.
 */
import { setTimeout as later } from 'node:timers/promises';

const BATCH = 'application/cloudevents-batch+json';

export interface Receipt {
  readonly id: string | null;
  readonly outcome: 'recorded' | 'already-known' | 'refused';
  readonly position?: number;
  readonly key?: string;
  readonly problem?: string;
}

export interface Door {
  readonly url: string;
  readonly token: string;
  /** Until when it tries. */
  readonly signal?: AbortSignal;
  /** Told of each push whose answer never came. */
  readonly broken?: () => void;
}

/** One try. A status that passes (busy, too often) and a broken connection give undefined. */
export const pushOnce = async (
  { url, token, broken }: Door,
  entries: readonly unknown[],
): Promise<Receipt[] | undefined> => {
  let answer: Response;
  try {
    answer = await fetch(`${url}/sync/push`, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': BATCH },
      body: JSON.stringify(entries),
    });
    if (answer.status === 200) return ((await answer.json()) as { receipts: Receipt[] }).receipts;
    await answer.arrayBuffer();
  } catch (error) {
    // Where nobody listened, nothing was under way.
    if (!(error instanceof TypeError && String(error.cause).includes('ECONNREFUSED'))) broken?.();
    return undefined;
  }
  if (![429, 503].includes(answer.status)) throw new Error(`A push was answered ${answer.status}`);
  return undefined;
};

/** Sends a batch until it has receipts; undefined where it was told to give up. */
export const pushUntilTaken = async (door: Door, entries: readonly unknown[]): Promise<Receipt[] | undefined> => {
  while (door.signal?.aborted !== true) {
    const receipts = await pushOnce(door, entries);
    if (receipts !== undefined) return receipts;
    await later(20);
  }
  return undefined;
};

/** Pulls page after page for ever, and gives each entry that came, as text, with its place. */
export async function* pulled(door: Door, limit: number): AsyncGenerator<{ position: number; entry: string }> {
  let after = 0;
  while (door.signal?.aborted !== true) {
    let page: unknown[] = [];
    try {
      const answer = await fetch(`${door.url}/sync/pull?after=${after}&limit=${limit}`, {
        headers: { authorization: `Bearer ${door.token}` },
      });
      if (answer.status === 200) page = (await answer.json()) as unknown[];
      else if (answer.status === 429 || answer.status === 503) await answer.arrayBuffer();
      else throw new TypeError(`A pull was answered ${answer.status}: ${await answer.text()}`, { cause: 'said' });
    } catch (error) {
      if (error instanceof TypeError && error.cause === 'said') throw error;
    }
    for (const each of page) {
      const position = Number((each as { sequence: string }).sequence);
      yield { position, entry: JSON.stringify(each) };
      after = position;
    }
    if (page.length === 0) await later(60);
  }
}

/** Listens to the stream, and comes back with the last position where it breaks. */
export async function* streamed(door: Door): AsyncGenerator<{ position: number; entry: string }> {
  let after = 0;
  while (door.signal?.aborted !== true) {
    try {
      const answer = await fetch(`${door.url}/sync/stream`, {
        headers: { authorization: `Bearer ${door.token}`, 'last-event-id': String(after) },
        ...(door.signal === undefined ? {} : { signal: door.signal }),
      });
      if (answer.status === 409) throw new TypeError(`The log went back behind ${after}`, { cause: 'said' });
      if (answer.status === 200) {
        for await (const event of eventsOf(answer)) {
          yield event;
          after = event.position;
        }
      } else await answer.arrayBuffer();
    } catch (error) {
      if (error instanceof TypeError && error.cause === 'said') throw error;
    }
    await later(30);
  }
}

/** Whole events alone: what a broken connection left half said is not heard. */
async function* eventsOf(answer: Response): AsyncGenerator<{ position: number; entry: string }> {
  const decoder = new TextDecoder();
  let waiting = '';
  for await (const piece of answer.body ?? []) {
    waiting += decoder.decode(piece, { stream: true });
    const events = waiting.split('\n\n');
    waiting = events.pop() ?? '';
    for (const event of events) {
      const [, id, data] = /^id: (\d+)\ndata: (.*)$/.exec(event) ?? [];
      if (id !== undefined && data !== undefined) yield { position: Number(id), entry: data };
    }
  }
}
