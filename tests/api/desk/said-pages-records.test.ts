/** The record keeper's pages drawn in Ukrainian: nothing on them is left in English but what the book or the command line says so. */
import { describe, expect, test } from 'vitest';
import { PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

/** A cow on hold, her sheets issued, and a dose that came in after. */
const anIssuedSet = async (): Promise<{ desk: ADesk; ref: string }> => {
  const desk = await aDesk();
  const dose = (id: string, subject: string) => ({
    type: 'treatment',
    time: '2026-03-13T18:00:00Z',
    subject,
    id,
    data: { medicine: PENICILLIN },
  });
  tellBook(desk, [dose('first', '101')]);
  const set = await desk.send(await desk.get('/'), {}, '/issue');
  tellBook(desk, [dose('second', '102')]);
  await desk.post('/language', { language: 'uk', to: '/' });
  return { desk, ref: set.path.split('/').at(-1)?.split('?')[0] ?? '' };
};

/** But for the book's key, and what was typed. */
const left = (desk: ADesk, page: Seen) =>
  leftInEnglish(desk, page, [desk.book.verifierKey, 'nonsense', 'noon', 'nothing-such']);

describe('in Ukrainian nothing is left in English', () => {
  test('on the record keeper’s page, and when it asks again', async () => {
    const { desk } = await anIssuedSet();
    expect(left(desk, await desk.get('/records'))).toEqual([]);
    for (const query of [
      '/records/then',
      '/records/then?date=2026-03-14&name=morning&at=2026-03-14T08:00&position=3',
      '/records/then?date=2026-03-14&name=noon&position=999999',
      '/records/then?date=x&name=morning&position=3',
      '/records/then?date=2026-03-14&name=morning&at=2199-03-14T08:00',
      '/records/then?date=2026-03-14&name=morning&at=nonsense',
      '/records/then?ref=nonsense',
      '/records/cow',
      '/records/inclusion.json',
      '/records/inclusion.json?entry=nothing-such',
      '/records/consistency.json',
      '/records/medicines.csv?from=2026-03-02&to=2026-03-01',
      '/records/medicines.csv?from=nonsense',
    ]) {
      expect(left(desk, await desk.get(query)), query).toEqual([]);
    }
  });

  test('where a milking is shown as it was known then, and where the book is verified', async () => {
    const { desk, ref } = await anIssuedSet();
    const then = await desk.get(`/records/then?ref=${ref}`);
    expect(then.text).toContain('102');
    expect(left(desk, then)).toEqual([]);
    expect(left(desk, await desk.get('/records/then?date=2026-03-10&name=morning&position=12'))).toEqual([]);
    for (const more of [
      {},
      { deep: 'yes' },
      { paper: 'nonsense' },
      { paper: '3:00000000' },
      { checkpoint: 'нічого' },
    ]) {
      const found = await desk.send(await desk.get('/records'), more, '/records/verify');
      expect([200, 400]).toContain(found.status);
      expect(left(desk, found), JSON.stringify(more)).toEqual([]);
    }
  });
});
