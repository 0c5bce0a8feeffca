/** Medicines and the shelf, drawn in Ukrainian: nothing on those pages is left in English but what the book says so. */
import { describe, expect, test } from 'vitest';
import { PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

/** A dry-cow tube with all that a label can say, a medicine given and not listed, a delivery. */
const aCupboard = async (): Promise<ADesk> => {
  const desk = await aDesk();
  tellBook(desk, [
    {
      type: 'medicine-listed',
      time: '2026-03-01T10:00:00Z',
      data: {
        name: 'Cloxacillin, dry cow',
        active: 'cloxacillin',
        route: 'udder',
        for: ['dry'],
        milkHold: 'not-for-milking-cows',
        meatDays: [{ upToDoses: 2, days: 20 }, { days: 30 }],
        dryCow: {
          minimumDryDays: 42,
          milkHoldAfterCalving: { hours: 96, milkings: 8 },
          meatHoursAfterCalving: 24,
          earlyCalving: 'minimum-plus-hold',
        },
        maxDoses: 4,
        minIntervalHours: 12,
        notFromAgeMonths: 24,
        authorisedForMilkAnimals: false,
      },
    },
    { type: 'treatment', time: '2026-03-13T18:00:00Z', subject: '101', data: { medicine: 'Oxytetracycline' } },
    {
      type: 'medicine-received',
      time: '2026-03-02T10:00:00Z',
      data: { medicine: PENICILLIN, quantity: { value: 20, unit: 'tube' }, batch: 'B1', expires: '2026-03-05' },
    },
  ]);
  await desk.post('/language', { language: 'uk', to: '/' });
  return desk;
};

/** Examples that stand in the hints as they go into the book. */
const left = (desk: ADesk, page: Seen) =>
  leftInEnglish(desk, page, ['penicillin G procaine, udder', 'tube ml bolus', 'B7']);

describe('in Ukrainian nothing is left in English', () => {
  test('on the list of medicines and the shelf, and on every form of theirs', async () => {
    const desk = await aCupboard();
    for (const path of [
      '/medicines',
      '/medicines?done=listed',
      '/medicines?done=received',
      '/medicines?done=disposed',
      '/medicines/edit',
      `/medicines/edit?name=${encodeURIComponent('Cloxacillin, dry cow')}`,
      '/medicines/received',
      '/medicines/disposed',
    ])
      expect(left(desk, await desk.get(path)), path).toEqual([]);
  });

  test('where a label or a delivery is sent back, and where a label is read before it is saved', async () => {
    const desk = await aCupboard();
    const name = 'Cloxacillin, dry cow';
    const form = await desk.get(`/medicines/edit?name=${encodeURIComponent(name)}`);
    for (const wrong of [
      {},
      { how: 'mistake' },
      { how: 'changed', at: '2026-02-01T10:00' },
      { how: 'changed', milk: 'hold' },
      { how: 'changed', milk: 'none', milkHours: '12' },
      { how: 'changed', meatDays: '3' },
    ]) {
      const again = await desk.send(form, { step: 'look', ...wrong }, '/medicines/edit');
      expect(again.status, JSON.stringify(wrong)).toBe(400);
      expect(left(desk, again), JSON.stringify(wrong)).toEqual([]);
    }
    const look = await desk.send(form, { step: 'look', how: 'changed', milk: 'unknown' }, '/medicines/edit');
    expect(look.status).toBe(200);
    expect(left(desk, look)).toEqual([]);
    const empty = await desk.send(await desk.get('/medicines/received'), { medicine: '' }, '/medicines/received');
    expect(empty.status).toBe(400);
    expect(left(desk, empty)).toEqual([]);
  });
});
