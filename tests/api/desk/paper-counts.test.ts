/** Head counts from the paper: beside the moves of the same sheet, and the box for all groups. */
import { describe, expect, test } from 'vitest';
import { instantText } from '../../../shared/instant.ts';
import { at } from '../../events/a-book.ts';
import { farmEntries, SET_UP } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';

/** 103 may leave the fresh pen for the milkers: the afternoon's set asks for it. It is evening now. */
const evening = async (): Promise<{ desk: ADesk; page: Seen }> => {
  const setUp = { ...SET_UP, freshPenHours: 48, freshHold: { milkings: 1 } };
  const desk = await aDesk(farmEntries().map((entry) => (entry.id === 'set-up' ? { ...entry, data: setUp } : entry)));
  tellBook(desk, [
    {
      type: 'calving',
      subject: '103',
      time: '2026-03-10T10:00:00Z',
      data: { calves: [{ sex: 'female', alive: true }], group: 'Fresh' },
    },
  ]);
  const set = await desk.send(await desk.get('/'), {}, '/issue');
  desk.clock.set(at('2026-03-14T18:30:00Z'));
  const page = await desk.get(`/paper?ref=${set.path.replace('/issued/', '')}`);
  return { desk, page };
};
const countsOf = (desk: ADesk) => desk.book.read().entries.filter(({ type }) => type === 'head-count');
const doubts = (seen: Seen): boolean => seen.text.includes('Alerts and doubts that this brings');

describe('counts on the paper', () => {
  for (const [when, milkers, fresh, words, like] of [
    ['before', '5', '1', 'taken as counted before the moves', 'the milking'],
    ['after', '6', '0', 'taken as counted after the moves', 'group-move'],
  ] as const)
    test(`R-70 a count that fits the book ${when} the ticked moves raises no doubt`, async () => {
      const { desk, page } = await evening();
      const fields = { 'out.0': 'yes', 'count.0': milkers, 'count.1': fresh, step: 'read' };
      const read = await desk.send(page, fields, '/paper');
      expect(read.text).toContain(words);
      expect(doubts(read)).toBe(false);
      await desk.send(read, { step: 'save' }, '/paper');
      const move = desk.book.read().entries.find(({ type }) => type === 'group-move');
      const time = like === 'group-move' ? instantText(move?.at ?? at('2026-01-01T00:00:00Z')) : '2026-03-14T16:30:00Z';
      expect(countsOf(desk).map((each) => instantText(each.at))).toEqual([time, time]);
      expect((await desk.get('/open')).text).not.toContain('counted');
    });

  test('R-70 the number in the box for all groups is read over, compared, and kept in the note of the return', async () => {
    const { desk, page } = await evening();
    const read = await desk.send(page, { 'count.all': '9', step: 'read' }, '/paper');
    const said = 'All groups: 9 counted; the book had 6 in them when the milking began';
    expect(read.text).toContain(said);
    await desk.send(read, { step: 'save' }, '/paper');
    const entry = desk.book.read().entries.findLast(({ type }) => type === 'sheet-returned');
    expect(entry?.data).toMatchObject({ note: said });
  });
});
