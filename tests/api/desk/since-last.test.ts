/** "Since the last sheet" on the desk's first page compares with what hangs, and with nothing where nothing hangs. */
import { expect, test } from 'vitest';
import { at } from '../../events/a-book.ts';
import { doseOf } from '../server/a-server.ts';
import { aDesk, tellBook } from './a-desk.ts';

const SINCE =
  /Since the last sheet: (\d+) cows? new on hold, (\d+) cows? off \(bands off\), (\d+) cows? gone otherwise/;

test('R-26 what is new is new against the set that hangs for this milking, else against an earlier one', async () => {
  const desk = await aDesk();
  const since = async (): Promise<number[] | undefined> =>
    SINCE.exec((await desk.get('/')).text)
      ?.slice(1)
      .map(Number);
  const issue = () => desk.server.serving.app.issuing.issue('next');
  tellBook(desk, [doseOf('101'), doseOf('102')]);
  // Before any sheet there is nothing to compare with.
  expect(await since()).toBeUndefined();
  await issue();
  expect(await since()).toEqual([0, 0, 0]);
  tellBook(desk, [doseOf('103', 'late')]);
  expect(await since()).toEqual([1, 0, 0]);
  tellBook(desk, [
    {
      type: 'entry-struck',
      time: '2026-03-14T11:30:00Z',
      data: { entry: 'late', reason: 'wrong', instead: 'nothing' },
    },
    { type: 'cow-left', subject: '102', time: '2026-03-14T11:30:00Z', data: { reason: 'other' } },
  ]);
  expect(await since()).toEqual([0, 0, 1]);
  await issue();
  expect(await since()).toEqual([0, 0, 0]);
  // The next milking has no set yet: it is compared with this one's.
  desk.clock.set(at('2026-03-14T20:00:00Z'));
  tellBook(desk, [doseOf('104', 'evening', '2026-03-14T19:00:00Z')]);
  expect(await since()).toEqual([1, 0, 0]);
});
