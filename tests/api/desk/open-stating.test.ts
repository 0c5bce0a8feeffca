/** What states an entry's missing word from the page where things are settled: the way it offers ends the hold by the rule. */
import { describe, expect, test } from 'vitest';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';

const CAME = '2026-02-20T09:15:30Z';
const cameDry = (data: Record<string, unknown> = {}) => ({
  type: 'cow-entered',
  time: CAME,
  subject: '136',
  id: 'came-136',
  data: { group: 'Dry', lactation: 2, driedOffOn: '2026-01-20', milkHoldUntil: 'none', meatHoldUntil: 'none', ...data },
});
const calved = {
  type: 'calving',
  subject: '136',
  time: '2026-03-10T06:00:00Z',
  data: { calves: [{ sex: 'female', alive: true }], group: 'Milkers' },
};

const article = (page: Seen, words: string) =>
  [...page.document.querySelectorAll('article')].find((each) => each.textContent?.includes(words));
const hrefs = (element: Element | undefined, start: string): string[] =>
  [...(element?.querySelectorAll(`a[href^="${start}"]`) ?? [])].map((a) => a.getAttribute('href') ?? '');
const holdKeys = async (desk: ADesk): Promise<string> => (await desk.get('/open')).text;

describe('what an entry left out', () => {
  for (const [when, since] of [
    ['while she is dry', []],
    ['once she is in milk again', [calved]],
  ] as const)
    test(`R-19 the product of a cow entered dry is stated ${when} by a dry-off, and nothing is struck`, async () => {
      const desk = await aDesk();
      tellBook(desk, [cameDry(), ...since]);
      const item = article(await desk.get('/open'), 'the dry-cow product is not stated');
      expect(hrefs(item, '/write/entry-struck').filter((path) => path.includes('came-136'))).toEqual([]);
      expect(item?.textContent).toContain('nothing has to be struck');
      const [path = ''] = hrefs(item, '/write/dry-off');
      const form = await desk.get(path);
      expect(form.text).toMatch(/came into the book dry, dried off on .*20 Jan/);
      const read = await desk.send(form, { product: 'none' }, '/write/dry-off');
      expect((await desk.send(read, { step: 'save' }, '/write/dry-off')).path).toContain('/written');
      expect(await holdKeys(desk)).not.toContain('the dry-cow product is not stated');
    });

  test('R-28 a cow entered with no word on her holds is entered again as she was, and only then is the first one struck', async () => {
    const desk = await aDesk();
    const { milkHoldUntil: _, ...data } = { ...cameDry().data, driedOffWith: 'none' };
    tellBook(desk, [{ ...cameDry(), data }, calved]);
    const item = article(await desk.get('/open'), 'came into the book without a word on her holds');
    expect(item?.textContent).toContain('without the new one she leaves the herd, with all that was written of her');
    const read = await desk.send(
      await desk.get(hrefs(item, '/write/cow-entered')[0] ?? ''),
      { milkHoldUntil: 'none' },
      '/write/cow-entered',
    );
    const saved = await desk.send(read, { step: 'save' }, '/write/cow-entered');
    const again = new URLSearchParams(saved.path.split('?')[1]).get('entry') ?? '';
    const entry = desk.book.read().entries.find(({ id }) => id === again);
    expect(entry?.data).toEqual({ ...data, milkHoldUntil: 'none' });
    const strike = await desk.get(hrefs(item, '/write/entry-struck')[0] ?? '');
    const check = await desk.send(strike, { reason: 'the hold was left out', instead: again }, '/write/entry-struck');
    await desk.send(check, { step: 'save' }, '/write/entry-struck');
    const page = await desk.get('/open');
    expect(page.text).not.toContain('came into the book without a word on her holds');
    expect((await desk.get('/cow/136')).text).not.toContain('There is no cow');
  });
});
