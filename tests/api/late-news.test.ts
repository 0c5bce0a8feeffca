/** What comes in after the sheet went to the wall, through a real book and really issued sheets. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Because } from '../../projections/because.ts';
import { readPdf } from '../print/read-pdf.ts';
import { type AFarm, aFarm, CEPHAPIRIN, PENICILLIN } from './a-farm.ts';
import { SET_UP } from './alder-bank.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

const AFTERNOON = '2026-03-01/afternoon';

const lateNews = (): Extract<Because, { key: 'alert.late-news' }>['values'][] =>
  farm.print().alerts.flatMap(({ because }) => (because.key === 'alert.late-news' ? [because.values] : []));

const dose = (cow: string, time: string, medicine = PENICILLIN, id?: string) =>
  farm.say('treatment', time, cow, { medicine }, id);

describe('late news', () => {
  test('R-31 a dose that comes in before the milking makes the issued sheet wrong: issue again', async () => {
    const { ref } = await farm.issue();
    farm.at('2026-03-01T15:00:00Z');
    dose('101', '2026-03-01T14:30:00Z');
    expect(lateNews()).toEqual([
      expect.objectContaining({
        cow: '101',
        milking: AFTERNOON,
        phase: 'before',
        ref,
        loads: [],
        until: '2026-03-04T02:30:00Z',
      }),
    ]);
    const again = await farm.issue();
    expect(again.replaces).toBe(ref);
    expect(lateNews()).toEqual([]);
  });

  test('R-31 the set that says it at last asks for the old one to be taken down, and not to be issued again', async () => {
    const { ref } = await farm.issue();
    farm.at('2026-03-01T15:00:00Z');
    dose('101', '2026-03-01T14:30:00Z');
    const { papers } = await farm.issue();
    const office = papers.find(({ sheet }) => sheet === 'office');
    const text = (await readPdf(office?.bytes ?? new Uint8Array())).text.replace(/\s+/g, ' ');
    expect(text).toContain(`sheet ${ref} did not say so: these sheets say so: take the old ones down`);
    expect(text).not.toContain('issue the sheets again');
  });

  test('R-31 of another milking it still asks', async () => {
    await farm.issue('2026-03-02/morning');
    farm.at('2026-03-01T15:00:00Z');
    dose('101', '2026-03-01T14:30:00Z');
    const { papers } = await farm.issue();
    const office = papers.find(({ sheet }) => sheet === 'office');
    expect((await readPdf(office?.bytes ?? new Uint8Array())).text.replace(/\s+/g, ' ')).toContain(
      'issue the sheets again',
    );
  });

  test('R-31 a dose that comes in during the milking asks whether she was milked first', async () => {
    await farm.issue();
    farm.at('2026-03-01T16:45:00Z');
    dose('102', '2026-03-01T16:40:00Z');
    expect(lateNews()).toEqual([expect.objectContaining({ cow: '102', milking: AFTERNOON, phase: 'running' })]);
  });

  test('R-31 the product of a dry-off in the milking is given when she was milked out: no news, but a dose by itself is', async () => {
    farm.say('medicine-listed', '2026-02-01T12:00:00Z', undefined, {
      name: 'Cloxacillin benzathine, dry cow',
      milkHold: 'not-for-milking-cows',
      meatDays: 28,
      dryCow: { minimumDryDays: 42, milkHoldAfterCalving: { hours: 96 } },
    });
    await farm.issue();
    farm.at('2026-03-01T18:00:00Z');
    const product = 'Cloxacillin benzathine, dry cow';
    farm.say('dry-off', '2026-03-01T16:40:00Z', '101', { product, group: 'Dry' });
    expect(lateNews()).toEqual([]);
    // Her milk of an earlier milking was drawn after a dose that is known only now.
    farm.say('dry-off', '2026-03-01T16:40:00Z', '102', { product: 'none', group: 'Dry' });
    farm.say('treatment', '2026-03-01T16:40:00Z', '102', { medicine: product });
    farm.say('dry-off', '2026-03-01T16:41:00Z', '103', { product, group: 'Dry' });
    dose('103', '2026-03-01T16:00:00Z');
    expect(lateNews().map(({ cow }) => cow)).toEqual(['102', '103']);
  });

  test('R-31 issuing again inside the milking does not unsay it: she may have been milked by the old sheet', async () => {
    await farm.issue();
    farm.at('2026-03-01T16:45:00Z');
    dose('102', '2026-03-01T16:40:00Z');
    await farm.issue(AFTERNOON);
    expect(lateNews()).toEqual([expect.objectContaining({ cow: '102', milking: AFTERNOON })]);
  });

  test('R-31 a dose that comes in after the milking names the load, still here', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    dose('103', '2026-03-01T12:30:00Z');
    expect(lateNews()).toEqual([
      expect.objectContaining({ cow: '103', phase: 'over', loads: [{ tank: '1', collectedAt: null, ticket: null }] }),
    ]);
  });

  test('R-31 after the tanker went the alert says when it was collected, and by which ticket', async () => {
    await farm.issue();
    farm.at('2026-03-02T08:00:00Z');
    farm.say('tank-collection', '2026-03-02T07:30:00Z', undefined, { ticket: 'T-77', litres: 9000 });
    dose('103', '2026-03-01T12:30:00Z');
    const alert = lateNews().find((each) => each.milking === AFTERNOON);
    expect(alert?.loads).toEqual([{ tank: '1', collectedAt: '2026-03-02T07:30:00Z', ticket: 'T-77' }]);
  });

  test('R-31 a collection that is written down late turns "still here" into "collected"', async () => {
    await farm.issue();
    farm.at('2026-03-02T20:00:00Z');
    dose('103', '2026-03-01T12:30:00Z');
    expect(lateNews()[0]?.loads[0]?.collectedAt).toBeNull();
    farm.say('tank-collection', '2026-03-02T07:30:00Z', undefined, { ticket: 'T-78' });
    expect(lateNews()[0]?.loads[0]?.collectedAt).toBe('2026-03-02T07:30:00Z');
  });

  test('R-30 R-31 with two tanks the milk may be in either: both loads are named', async () => {
    farm.say('tank-collection', '2026-02-28T07:00:00Z', undefined, { tank: 'north' });
    farm.say('tank-collection', '2026-02-28T07:20:00Z', undefined, { tank: 'south' });
    await farm.issue();
    farm.at('2026-03-02T09:00:00Z');
    farm.say('tank-collection', '2026-03-02T07:00:00Z', undefined, { tank: 'north' });
    dose('103', '2026-03-01T12:30:00Z');
    const alert = lateNews().find((each) => each.milking === AFTERNOON);
    expect(alert?.loads.map(({ tank, collectedAt }) => [tank, collectedAt])).toEqual([
      ['north', '2026-03-02T07:00:00Z'],
      ['south', null],
    ]);
  });

  test('R-30 a collection in the middle of the milking leaves its milk in both loads', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    farm.say('tank-collection', '2026-03-01T16:35:00Z', undefined, {});
    dose('103', '2026-03-01T12:30:00Z');
    expect(lateNews()[0]?.loads.map(({ collectedAt }) => collectedAt)).toEqual(['2026-03-01T16:35:00Z', null]);
  });

  test('R-31 a treatment struck and entered for another cow is late news for the other one', async () => {
    dose('104', '2026-03-01T11:00:00Z', PENICILLIN, 'wrong-cow');
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    dose('105', '2026-03-01T11:00:00Z', PENICILLIN, 'right-cow');
    farm.say('entry-struck', '2026-03-01T19:00:00Z', undefined, {
      entry: 'wrong-cow',
      reason: 'wrong cow',
      instead: 'right-cow',
    });
    expect(lateNews().map(({ cow }) => cow)).toEqual(['105']);
  });

  test('R-31 a label corrected longer is late news for the cow whose milk went in meanwhile', async () => {
    dose('106', '2026-02-27T04:00:00Z');
    await farm.issue();
    expect(farm.print().sheets['milk-hold'].held).toEqual([]);
    farm.at('2026-03-01T20:00:00Z');
    farm.say(
      'medicine-listed',
      '2026-02-01T12:00:00Z',
      undefined,
      { name: PENICILLIN, milkHold: { hours: 96 }, meatDays: 3 },
      'right-label',
    );
    farm.say('entry-struck', '2026-03-01T19:00:00Z', undefined, {
      entry: 'penicillin-label',
      reason: 'misread label',
      instead: 'right-label',
    });
    expect(lateNews()).toEqual([
      expect.objectContaining({ cow: '106', milking: AFTERNOON, until: '2026-03-03T04:00:00Z' }),
    ]);
  });

  test('R-31 a number corrected lays the dose to the right cow, and she is late news', async () => {
    farm.say('treatment', '2026-03-01T11:00:00Z', '1O1', { medicine: CEPHAPIRIN }, 'misread');
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    farm.say('treatment', '2026-03-01T11:00:00Z', '101', { medicine: CEPHAPIRIN }, 'read-again');
    farm.say('entry-struck', '2026-03-01T19:30:00Z', undefined, {
      entry: 'misread',
      reason: 'the letter O',
      instead: 'read-again',
    });
    expect(lateNews().map(({ cow }) => cow)).toEqual(['101']);
  });

  test('R-31 an alert stands until it is settled, and news after the settling is news again', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    dose('103', '2026-03-01T12:30:00Z');
    const key = farm.print().alerts[0]?.key ?? '';
    farm.say('settled', '2026-03-01T20:00:00Z', undefined, { about: key, how: 'the load was poured away' });
    expect(lateNews()).toEqual([]);
    dose('103', '2026-03-01T13:00:00Z', CEPHAPIRIN);
    expect(lateNews().map(({ cow }) => cow)).toEqual(['103']);
  });

  test('R-31 a longer hold of a cow that the sheet held anyway is no late news: her milk stayed out', async () => {
    dose('103', '2026-03-01T11:00:00Z');
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    dose('103', '2026-03-01T11:30:00Z', CEPHAPIRIN);
    expect(lateNews()).toEqual([]);
  });

  test('R-31 R-13 the alert names what holds her longest, and until when that does', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    dose('103', '2026-03-01T11:00:00Z');
    dose('103', '2026-03-01T11:30:00Z', CEPHAPIRIN);
    dose('103', '2026-03-01T11:40:00Z');
    expect(lateNews().map(({ about, until }) => [about, until])).toEqual([[CEPHAPIRIN, '2026-03-05T11:30:00Z']]);
  });

  test('R-31 R-02 an alert stands though the farm calls the milking otherwise from that day on', async () => {
    const { ref } = await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    dose('103', '2026-03-01T12:00:00Z');
    const before = lateNews();
    expect(before).toEqual([expect.objectContaining({ cow: '103', milking: AFTERNOON, ref })]);
    const milkings = [
      { name: 'morning', start: '05:00' },
      { name: 'evening', start: '16:30' },
    ];
    const groups = SET_UP.groups.map((each) =>
      each.name === 'Milkers' ? { ...each, milkedAt: ['morning', 'evening'] } : each,
    );
    farm.say('farm-set-up', '2026-03-01T20:00:00Z', undefined, { ...SET_UP, from: '2026-03-01', milkings, groups });
    expect(lateNews()).toEqual(before);
    // Who was on that sheet is not new on the next one.
    farm.say('treatment', '2026-02-28T12:00:00Z', '104', { medicine: PENICILLIN }, 'known-now');
    expect(farm.print({ milking: AFTERNOON }).milking.id).toBe(AFTERNOON);
    farm.at('2026-03-09T12:00:00Z');
    expect(lateNews().map(({ cow }) => cow)).toEqual(['103', '104']);
  });

  test('R-31 R-24 a dry cow that was put among the milked stays news after days, until it is settled', async () => {
    farm.say('dry-off', '2026-02-20T12:00:00Z', '104', { product: 'none', group: 'Dry' });
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    farm.say('group-move', '2026-03-01T12:00:00Z', '104', { to: 'Milkers' });
    expect(lateNews().map(({ cow }) => cow)).toEqual(['104']);
    farm.say('group-move', '2026-03-01T21:00:00Z', '104', { to: 'Dry' });
    farm.at('2026-03-09T12:00:00Z');
    expect(lateNews().map(({ cow }) => cow)).toEqual(['104']);
  });

  test('R-31 R-03 a cow whose group is not milked at that milking put nothing into its load', async () => {
    const groups = [...SET_UP.groups, { name: 'Once', kind: 'milking', milkedAt: ['morning'] }];
    farm.say('farm-set-up', '2026-02-10T12:00:00Z', undefined, { ...SET_UP, from: '2026-02-11', groups });
    for (const cow of ['105', '106']) farm.say('group-move', '2026-02-20T12:00:00Z', cow, { to: 'Once' });
    await farm.issue();
    await farm.issue('2026-03-02/morning');
    farm.at('2026-03-02T12:00:00Z');
    dose('105', '2026-03-01T12:00:00Z');
    expect(lateNews().map(({ cow, milking }) => [cow, milking])).toEqual([['105', '2026-03-02/morning']]);
  });
});

describe('what was refused after the milking that it is about', () => {
  const refused = (time: string): string => {
    const receipt = farm.say('treatment', time, '101', { medicne: PENICILLIN });
    if (receipt.outcome !== 'refused') throw new Error('it was to be refused');
    return receipt.key ?? '';
  };

  test('R-27 R-31 holds her at the milkings since the time it states: an alert that stands until it is settled', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    const key = refused('2026-03-01T14:00:00Z');
    const expected = [expect.objectContaining({ cow: '101', milking: AFTERNOON, phase: 'over', until: null })];
    expect(lateNews()).toEqual(expected);
    farm.at('2026-03-09T20:00:00Z');
    expect(lateNews()).toEqual(expected);
    farm.say('settled', '2026-03-09T20:00:00Z', undefined, { about: key, how: 'a slip of the pen' });
    expect(lateNews()).toEqual([]);
  });

  test('R-31 a time without a zone may have been at any place; one after the milking is no news of it', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    refused('2026-03-02T02:00:00');
    expect(lateNews()).toHaveLength(1);
    const key = refused('2026-03-01T19:00:00Z');
    expect(key).toMatch(/^set-aside:/);
    expect(lateNews()).toHaveLength(1);
  });

  test('R-31 not further back than three days: the time may be what is wrong in it', async () => {
    await farm.issue();
    farm.at('2026-03-04T17:00:00Z');
    refused('2026-02-01T14:00:00Z');
    expect(lateNews()).toHaveLength(1);
    farm.close();
    farm = aFarm();
    await farm.issue();
    farm.at('2026-03-06T17:00:00Z');
    refused('2026-02-01T14:00:00Z');
    expect(lateNews()).toEqual([]);
  });
});

describe('a cow that nobody can tell', () => {
  const news = () =>
    farm
      .print()
      .alerts.flatMap(({ key, because }) =>
        because.key === 'alert.late-unplaced' ? [[key, because.values.number, because.values.phase]] : [],
      );

  test('R-25 R-31 a dose for a number that nobody bears is late news of the milkings it may bear on, until settled', async () => {
    await farm.issue();
    farm.at('2026-03-01T15:00:00Z');
    dose('777', '2026-03-01T14:00:00Z', PENICILLIN, 'stray');
    const key = `late-news:${AFTERNOON}:unplaced:stray`;
    expect(news()).toEqual([[key, '777', 'before']]);
    farm.at('2026-03-09T20:00:00Z');
    expect(news()).toEqual([[key, '777', 'over']]);
    farm.say('settled', '2026-03-09T20:00:00Z', undefined, { about: key, how: 'the tank was poured away' });
    expect(news()).toEqual([]);
    // Said again for another milking, and not where its sheet asked for her.
    await farm.issue('2026-03-10/morning');
    expect(news()).toEqual([]);
  });

  test('R-25 R-31 is none where the sheet asked for her, where it is settled who she was, or after her hold', async () => {
    dose('777', '2026-03-01T11:00:00Z', PENICILLIN, 'stray');
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    expect(news()).toEqual([]);
    dose('778', '2026-03-01T19:00:00Z', PENICILLIN);
    dose('779', '2026-02-26T04:00:00Z', PENICILLIN);
    expect(news()).toEqual([]);
    dose('780', '2026-03-01T14:00:00Z', PENICILLIN, 'other');
    expect(news()).toHaveLength(1);
    farm.say('settled', '2026-03-01T20:00:00Z', undefined, { about: 'unplaced:other', how: 'another farm’s cow' });
    expect(news()).toEqual([]);
  });

  test('R-27 R-31 so is what was refused with no cow in it', async () => {
    await farm.issue();
    farm.at('2026-03-01T20:00:00Z');
    farm.say('treatment', '2026-03-01T14:00:00Z', undefined, { medicine: PENICILLIN });
    expect(news()).toEqual([[expect.stringMatching(/^late-news:2026-03-01\/afternoon:set-aside:/), '', 'over']]);
  });
});

describe('milkings without a sheet', () => {
  const without = () => farm.print().alerts.filter(({ because }) => because.key === 'alert.no-sheet');

  test('R-32 a milking that started with no sheet while a cow was on hold is an alert, from the first issue on', async () => {
    dose('101', '2026-02-28T18:00:00Z');
    expect(without()).toEqual([]);
    await farm.issue();
    farm.at('2026-03-02T06:00:00Z');
    const [{ key } = { key: '' }, ...others] = without();
    expect([key, others]).toEqual([expect.stringMatching(/^no-sheet:2026-03-02\/morning:[0-9a-f]{8}$/), []]);
    farm.say('settled', '2026-03-02T06:00:00Z', undefined, { about: key, how: 'read from the office screen' });
    expect(without()).toEqual([]);
    // Another cow was held as well: nobody had settled that.
    dose('102', '2026-03-01T18:00:00Z');
    expect(without().map(({ because }) => because.values)).toEqual([expect.objectContaining({ cows: ['101', '102'] })]);
  });

  test('R-32 no alert for a milking without a sheet while nobody was on hold', async () => {
    await farm.issue();
    farm.at('2026-03-02T06:00:00Z');
    expect(without()).toEqual([]);
  });

  test('R-32 a positive tank test is an alert until settled, with the milkings in the load', () => {
    farm.say('tank-collection', '2026-02-28T08:00:00Z', undefined, {});
    farm.say('residue-test', '2026-03-01T07:00:00Z', undefined, { result: 'positive', of: 'tank' }, 'tank-test');
    const alert = farm.print().alerts.find(({ key }) => key === 'tank-positive:tank-test');
    expect(alert?.because.values).toMatchObject({
      tank: '1',
      milkings: ['2026-02-28/afternoon', '2026-03-01/morning'],
      collectedAt: null,
    });
  });

  test('R-32 a load that the buyer tested positive is an alert too', () => {
    farm.say('tank-collection', '2026-03-01T08:00:00Z', undefined, { residueTest: 'positive' }, 'load-1');
    expect(farm.print().alerts.map(({ key }) => key)).toEqual(['tank-positive:load-1']);
  });
});

describe('sets that have not come back', () => {
  test('R-26 a set issued for an earlier milking stands on the office list until it is returned', async () => {
    const { ref } = await farm.issue();
    farm.at('2026-03-02T03:00:00Z');
    expect(farm.print().notReturned).toEqual([{ ref, milking: AFTERNOON }]);
    farm.say('sheet-returned', '2026-03-02T03:00:00Z', undefined, { ref });
    expect(farm.print().notReturned).toEqual([]);
  });
});
