/** What the desk says of the cow behind a number: an entry dated when she was not there, her entering struck, and after she left. */
import { describe, expect, test } from 'vitest';
import { doseOf } from '../server/a-server.ts';
import { aDesk, tellBook } from './a-desk.ts';

const NO_COW = 'There is no cow';

describe('whose an entry is', () => {
  test('R-25 an entry dated before she came into the book is said to belong to no cow, not to change nothing', async () => {
    const desk = await aDesk();
    const form = await desk.get('/write/dry-off?cow=103&when=time&timeAt=2026-01-15T08:00');
    const read = await desk.send(form, { product: 'none' }, '/write/dry-off');
    expect(read.text).toContain('at the time that is given no cow of the herd was 103');
    expect(read.text).not.toContain('no change');
    const saved = await desk.send(read, { step: 'save' }, '/write/dry-off');
    expect(saved.path).toContain('/written');
  });

  test('striking her entering says that she leaves the herd, and how much of what was written of her is no cow’s then', async () => {
    const desk = await aDesk();
    tellBook(desk, [doseOf('103', 'one'), doseOf('103', 'two', '2026-03-14T09:00:00Z')]);
    const form = await desk.get('/write/entry-struck?entry=cow-103');
    const read = await desk.send(form, { reason: 'never came', instead: 'nothing' }, '/write/entry-struck');
    expect(read.text).toContain('103 leaves the herd by it');
    expect(read.text).toContain('2 entries about her belong to no cow then');
    const other = await desk.get('/write/entry-struck?entry=one');
    const dose = await desk.send(other, { reason: 'not given', instead: 'nothing' }, '/write/entry-struck');
    expect(dose.text).not.toContain('leaves the herd');
  });

  for (const language of ['en', 'es'] as const)
    test(`a cow that left by what was just written is not said to be unplaced (${language})`, async () => {
      const desk = await aDesk();
      if (language !== 'en') await desk.post('/language', { language, to: '/' });
      const form = await desk.get('/write/cow-left?cow=104');
      const read = await desk.send(form, { reason: 'died' }, '/write/cow-left');
      const saved = await desk.send(read, { step: 'save' }, '/write/cow-left');
      expect(saved.path).toContain('/written');
      expect(saved.text).not.toContain(NO_COW);
      expect(saved.text).not.toContain('No hay ninguna vaca');
      expect(saved.text).toContain(
        language === 'en' ? 'no cow of the herd is 104' : 'ninguna vaca del rebaño es la 104',
      );
    });
});
