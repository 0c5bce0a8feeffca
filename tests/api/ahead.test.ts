/** R-27 what a book with a wrong clock passes on with a time that is still to come holds the cow until then, or until settled. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { tonight } from '../../api/tonight.ts';
import { readRelayed } from '../../events/relay.ts';
import { type AFarm, aFarm, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

const relay = (type: string, time: string, subject: string | undefined, data: unknown, id: string) =>
  farm.book.relay(
    [
      readRelayed({
        specversion: '1.0',
        id,
        source: 'laptop',
        type,
        time,
        author: 'Ola',
        data,
        ...(subject === undefined ? {} : { subject }),
      }),
    ],
    'laptop',
  );

const held = () => new Map(farm.print().sheets['milk-hold'].held.map((row) => [row.cow, row]));

describe('R-27 a time that is still to come', () => {
  test('R-27 of a dose a year ahead holds her without end, with a doubt that says why, milk and meat', () => {
    relay('treatment', '2027-03-01T12:00:00Z', '102', { medicine: PENICILLIN }, 'next-year');
    const row = held().get('102');
    expect(row).toMatchObject({ until: null, tankFrom: null });
    expect(row?.reasons.map(({ rule, key }) => [rule, key])).toEqual([['R-27', 'hold.entry-set-aside']]);
    const doubt = farm.print().doubts.find(({ key }) => key === 'ahead:next-year');
    expect(JSON.stringify(doubt?.because.values)).toContain('still to come');
    expect(farm.print().sheets['beef-hold'].cows.map(({ cow }) => cow)).toContain('102');
    expect(held().has('101')).toBe(false);
  });

  test('R-27 is over when it is settled, and when its time has come the dose counts as any other', () => {
    relay('treatment', '2026-03-01T13:00:00Z', '102', { medicine: PENICILLIN }, 'in-an-hour');
    expect(held().get('102')?.until).toBeNull();
    farm.at('2026-03-01T13:00:00Z');
    expect(held().get('102')?.until).toBe('2026-03-04T01:00:00Z');
    relay('milk-hold', '2026-03-05T13:00:00Z', '103', { reason: 'clots' }, 'later');
    expect(held().has('103')).toBe(true);
    farm.say('settled', '2026-03-01T13:00:00Z', undefined, { about: 'ahead:later', how: 'entered again' });
    expect(held().has('103')).toBe(false);
  });

  test('R-27 of five minutes is what clocks differ by, and a sort or a move for later holds her all the same', () => {
    relay('treatment', '2026-03-01T12:05:00Z', '101', { medicine: PENICILLIN }, 'five-minutes');
    relay('group-move', '2026-03-01T18:00:00Z', '104', { to: 'Dry' }, 'move');
    expect([...held().keys()]).toContain('104');
    expect(farm.print().doubts.map(({ key }) => key)).not.toContain('ahead:five-minutes');
  });

  test('R-31 on the wall already, it is late news for the milking that comes', async () => {
    await farm.issue();
    expect(farm.print().alerts).toEqual([]);
    relay('treatment', '2027-03-01T12:00:00Z', '102', { medicine: PENICILLIN }, 'next-year');
    expect(farm.print().alerts).toMatchObject([{ because: { values: { cow: '102', phase: 'before' } } }]);
    expect(tonight(farm.book).known.asides.map(({ key }) => key)).toEqual(['ahead:next-year']);
  });
});
