/** What is due at each minute, from what is known and the time alone: across clock changes, and with long leads. */
import { describe, expect, test } from 'vitest';
import { dueNow } from '../../../api/server/issue-before-due.ts';
import { knowledgeOf } from '../../../api/tonight.ts';
import { DAY, HOUR, type Instant, instantText, MINUTE } from '../../../shared/instant.ts';
import { at, handClock, newPath, opened } from '../../events/a-book.ts';
import { farmEntries, SET_UP, tell } from './a-server.ts';

const NIGHT = [
  { name: 'night', start: '02:30' },
  { name: 'day', start: '14:30' },
];

const knowledge = (zone: string, milkings = NIGHT) => {
  const now = at('2026-03-01T12:00:00Z');
  const book = opened(newPath(), { clock: handClock(now) });
  tell(book, now, [
    { type: 'farm-set-up', time: '2026-02-01T12:00:00Z', id: 'set-up', data: { ...SET_UP, timeZone: zone, milkings } },
    ...farmEntries().slice(1),
  ]);
  return knowledgeOf(book);
};

/** Each milking that is in play in these hours, with when it came into play and when it left, looked at every minute. */
const spells = (known: ReturnType<typeof knowledge>, from: string, hours: number, before = 30 * MINUTE): string[] => {
  const said: string[] = [];
  let open = new Map<string, number>();
  for (let now = at(from); now <= at(from) + hours * HOUR; now = (now + MINUTE) as Instant) {
    const due = dueNow(known, now, before, () => true);
    const inPlay = new Set<string>(due.inPlay.map(({ milking }) => milking.id));
    for (const [id, since] of open)
      if (!inPlay.has(id)) said.push(`${id} ${instantText(since as Instant)} to ${instantText(now)}`);
    open = new Map([...inPlay].map((id) => [id, open.get(id) ?? now]));
  }
  return said;
};

describe('daylight saving', () => {
  test('a milking whose wall time does not exist that night is due once, half an hour before it really starts', () => {
    const known = knowledge('Europe/Berlin');
    expect(spells(known, '2026-03-28T23:00:00Z', 6)).toEqual([
      '2026-03-29/night 2026-03-29T00:30:00Z to 2026-03-29T02:11:00Z',
    ]);
    expect(known.known.farm.schedule?.find('2026-03-29/night')?.start).toBe(at('2026-03-29T01:00:00Z'));
  });

  test('a milking whose wall time comes twice that night is due once', () => {
    expect(spells(knowledge('Europe/Berlin'), '2026-10-24T22:00:00Z', 7)).toEqual([
      '2026-10-25/night 2026-10-25T00:00:00Z to 2026-10-25T01:41:00Z',
    ]);
  });

  test('through a whole year every milking is due exactly half an hour before its start, each once', () => {
    const known = knowledge('America/St_Johns');
    let now = at('2026-03-05T00:00:00Z');
    const seen: string[] = [];
    for (let steps = 0; steps < 2_000; steps += 1) {
      const { opens } = dueNow(known, now, 30 * MINUTE, () => true);
      if (opens === null) throw new Error('There is always a milking ahead');
      if (opens >= at('2027-03-05T00:00:00Z')) break;
      const early = dueNow(known, (opens - 1) as Instant, 30 * MINUTE, () => true).inPlay;
      const due = dueNow(known, opens, 30 * MINUTE, () => true).inPlay.at(-1);
      expect(early.map(({ milking }) => milking.id)).not.toContain(due?.milking.id);
      expect(due?.why).toBe('no-set');
      expect((due?.milking.start ?? 0) - opens).toBe(30 * MINUTE);
      seen.push(due?.milking.id ?? '');
      now = opens;
    }
    expect(seen).toHaveLength(730);
    expect(new Set(seen).size).toBe(730);
  });
});

test('the running milking and the next are both in play where the lead reaches over from one to the other', () => {
  const known = knowledge('UTC', [
    { name: 'first', start: '10:00' },
    { name: 'second', start: '11:00' },
  ]);
  const due = dueNow(known, at('2026-03-14T10:30:00Z'), 45 * MINUTE, () => true);
  expect(due.inPlay.map(({ milking }) => milking.name)).toEqual(['first', 'second']);
  expect(instantText(due.opens ?? (0 as Instant))).toBe('2026-03-15T09:15:00Z');
});

test('a book without a farm has nothing due, at any time', () => {
  const book = opened(newPath(), { clock: handClock() });
  for (const days of [0, 1, 400])
    expect(dueNow(knowledgeOf(book), (at('2026-03-14T16:00:00Z') + days * DAY) as Instant, HOUR, () => true)).toEqual({
      inPlay: [],
      opens: null,
      missed: null,
    });
});

test('R-32 a milking that went by is missed only where sets are issued at all', () => {
  expect(dueNow(knowledge('UTC'), at('2026-03-14T20:00:00Z'), HOUR, () => true).missed).toBeNull();
});
