/** Writing down at the desk: read what it does, save it once, take it back; what is wrong is said and records nothing. */
import { describe, expect, test } from 'vitest';
import { instantText } from '../../../shared/instant.ts';
import { at } from '../../events/a-book.ts';
import { farmEntries, PENICILLIN, SET_UP } from '../server/a-server.ts';
import { type ADesk, aDesk, type Browser, tellBook } from './a-desk.ts';

const entries = (desk: ADesk, type: string) => desk.book.read().entries.filter((entry) => entry.type === type);

const dose = { cow: '103', medicine: PENICILLIN, inCourse: 'single' };

const checked = async (browser: Browser, kind: string, fields: Record<string, string | string[]>) =>
  browser.send(await browser.get(`/write/${kind}`), fields, `/write/${kind}`);

const saved = async (browser: Browser, kind: string, fields: Record<string, string | string[]>) =>
  browser.send(await checked(browser, kind, fields), { step: 'save' }, `/write/${kind}`);

describe('a treatment', () => {
  test('shows the hold worked out before anything is saved, and saves it then', async () => {
    const desk = await aDesk();
    const check = await checked(desk, 'treatment', dose);
    expect(entries(desk, 'treatment')).toEqual([]);
    expect(check.text).toContain('103 Milkers, lactation 2, 103 days in milk: milk not on hold');
    // 14 March 12:00 + 60 h is Tuesday 17 March at midnight.
    expect(check.text).toContain('MILK ON HOLD, in the tank from Tue 17 Mar morning');
    const done = await desk.send(check, { step: 'save' }, '/write/treatment');
    expect(done.path).toMatch(/^\/written\?entry=/);
    expect(done.text).toContain('103 Treatment given, Sat 14 Mar 12:00, by Marta (the manager)');
    expect(entries(desk, 'treatment')).toMatchObject([{ subject: '103', author: 'Marta', source: 'the manager' }]);
    expect((await desk.get('/')).text).toContain('1 milk out of the tank');
  });

  test('sent twice, reloaded, or a minute later records once; a form saved before and changed since is refused', async () => {
    const desk = await aDesk();
    const check = await checked(desk, 'treatment', dose);
    await Promise.all([1, 2, 3].map(() => desk.send(check, { step: 'save' }, '/write/treatment')));
    desk.clock.set((desk.clock.now() + 60_000) as never);
    const again = await desk.send(check, { step: 'save' }, '/write/treatment');
    expect(again.path).toMatch(/^\/written/);
    expect(entries(desk, 'treatment')).toHaveLength(1);
    const changed = await desk.send(check, { step: 'save', cow: '104' }, '/write/treatment');
    expect(changed.status).toBe(400);
    expect(changed.text).toContain('This form was saved already and said something else then');
    expect(entries(desk, 'treatment')).toHaveLength(1);
  });

  test('goes to several cows at once, each with an entry and a course of her own', async () => {
    const desk = await aDesk();
    const fields = {
      ...dose,
      cow: '101, 102 103',
      inCourse: 'first',
      of: '3',
      everyHours: '12',
      amount: '1',
      unit: 'tube',
    };
    await saved(desk, 'treatment', { ...fields, quarters: ['left-front', 'right-hind'] });
    const given = entries(desk, 'treatment');
    expect(given.map(({ subject }) => subject)).toEqual(['101', '102', '103']);
    expect(given).toMatchObject([{ data: { course: { dose: 1, of: 3, everyHours: 12 } } }, {}, {}]);
    expect(new Set(given.map((entry) => entry.type === 'treatment' && entry.data.course?.id)).size).toBe(3);

    const next = await checked(desk, 'treatment', { ...dose, cow: '102', inCourse: 'next' });
    await desk.send(next, { step: 'save' }, '/write/treatment');
    const [first, second] = entries(desk, 'treatment').filter(({ subject }) => subject === '102');
    expect(second).toMatchObject({ data: { course: { dose: 2, of: 3 } } });
    expect(first?.type === 'treatment' && second?.type === 'treatment' && second.data.course?.id).toBe(
      first?.type === 'treatment' && first.data.course?.id,
    );
    const none = await checked(desk, 'treatment', { ...dose, cow: '105', inCourse: 'next' });
    expect(none.status).toBe(400);
    expect(none.text).toContain('105 has no running course');
  });

  test('R-11 of a medicine that is not listed says before saving that her milk is held without end', async () => {
    const desk = await aDesk();
    const check = await checked(desk, 'treatment', { ...dose, medicine: 'Penicilin' });
    expect(check.text).toContain('MILK ON HOLD, no end known');
  });

  test('R-04 at a milking is timed at its planned end, and never ahead of the clock', async () => {
    const desk = await aDesk();
    await saved(desk, 'treatment', { ...dose, when: 'milking', milkingAt: '2026-03-14/morning' });
    // Six cows are one turn of ten minutes from 05:00.
    expect(new Date(entries(desk, 'treatment')[0]?.at ?? 0).toISOString()).toBe('2026-03-14T05:10:00.000Z');
    const ahead = await checked(desk, 'treatment', { ...dose, when: 'milking', milkingAt: '2026-03-14/afternoon' });
    expect(ahead.text).toContain('That milking has not begun');
    const later = await checked(desk, 'treatment', { ...dose, when: 'time', timeAt: '2026-03-14T18:00' });
    expect(later.status).toBe(400);
    expect(later.text).toMatch(/in the future|ahead/);
    expect(entries(desk, 'treatment')).toHaveLength(1);
  });

  test('R-03 at an hour that the clocks say twice is asked again: the earlier of the two would end her hold too soon', async () => {
    const farm = farmEntries().map((entry) =>
      entry.type === 'farm-set-up' ? { ...entry, data: { ...SET_UP, timeZone: 'Europe/Dublin' } } : entry,
    );
    const desk = await aDesk(farm);
    desk.clock.set(at('2026-10-25T12:00:00Z'));
    const autumn = await desk.as('manager');
    const twice = await checked(autumn, 'treatment', { ...dose, when: 'time', timeAt: '2026-10-25T01:30' });
    expect(twice.status).toBe(400);
    expect(twice.text).toContain('came twice');
    await saved(autumn, 'treatment', { ...dose, when: 'time', timeAt: '2026-10-25T02:00' });
    expect(entries(desk, 'treatment').map((entry) => instantText(entry.at))).toEqual(['2026-10-25T02:00:00Z']);
  });

  test('much like one that is in the book already is asked about', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      {
        type: 'treatment',
        subject: '103',
        time: '2026-03-14T11:30:00Z',
        author: 'Ola',
        data: { medicine: PENICILLIN },
      },
    ]);
    const check = await checked(desk, 'treatment', dose);
    expect(check.text).toContain('Is it really another one?');
    expect(check.text).toContain('by Ola');
  });

  test('R-25 of a cow that is not in the herd says so before it is saved, and stands unplaced then', async () => {
    const desk = await aDesk();
    const check = await checked(desk, 'treatment', { ...dose, cow: '999' });
    expect(check.text).toContain('There is no cow 999 in the herd');
    await desk.send(check, { step: 'save' }, '/write/treatment');
    expect((await desk.get('/')).text).toContain('Find first: 999');
  });

  test('R-31 that the sheet on the wall does not have is alerted before and after saving', async () => {
    const desk = await aDesk();
    await desk.send(await desk.get('/milking/2026-03-14/morning'), {}, '/issue');
    await desk.send(await desk.get('/'), {}, '/issue');
    const check = await checked(desk, 'treatment', { ...dose, when: 'time', timeAt: '2026-03-14T04:00' });
    expect(check.document.querySelector('[role=alert]')?.textContent).toContain('103 is on hold');
    await desk.send(check, { step: 'save' }, '/write/treatment');
    expect((await desk.get('/')).text).toContain('Alerts (');
  });
});

describe('what is wrong', () => {
  test.each([
    ['treatment', { ...dose, cow: '' }, 'Say which cow'],
    ['treatment', { ...dose, cow: '10/3' }, 'is no cow number'],
    ['treatment', { ...dose, amount: 'two', unit: 'tube' }, 'mount'],
    ['treatment', { ...dose, amount: '2' }, 'Say the unit'],
    ['treatment', { ...dose, inCourse: 'first' }, 'missing'],
    ['treatment', { ...dose, when: 'time', timeAt: 'yesterday' }, 'not a date and a time'],
    ['calving', { cow: '101 102' }, 'One cow at a time'],
    ['head-count', { group: 'Milkers', count: '-3' }, 'must not be negative'],
    ['number-changed', { cow: '101', to: 'far too long 1' }, 'must be a barn number'],
  ])('in a %s is said beside what was typed, and nothing is saved: %j', async (kind, fields, sentence) => {
    const desk = await aDesk();
    const before = desk.book.head().position;
    const page = await checked(desk, kind, fields);
    expect(page.status).toBe(400);
    expect(page.text).toContain('Nothing is saved yet');
    expect(page.text).toContain(sentence);
    for (const [name, value] of Object.entries(fields)) {
      if (name === 'when' || name === 'inCourse' || name === 'group' || value === '') continue;
      expect(page.document.querySelector(`input[name="${name}"]`)?.getAttribute('value')).toBe(value);
    }
    expect(desk.book.head().position).toBe(before);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('a comma in a number is a point', async () => {
    const desk = await aDesk();
    await saved(desk, 'treatment', { ...dose, amount: '2,5', unit: 'ml' });
    expect(entries(desk, 'treatment')).toMatchObject([{ data: { amount: { value: 2.5, unit: 'ml' } } }]);
  });
});

describe('every kind', () => {
  const cases: readonly [string, Record<string, string>][] = [
    ['milk-hold', { cow: '101', reason: 'clots' }],
    ['calving', { cow: '101', calf1: 'female', calf1alive: 'yes', calf1number: 'C-1', ease: '1', group: 'Fresh' }],
    ['dry-off', { cow: '101 102', product: 'none', group: 'Dry' }],
    ['group-move', { cow: '101 102 103', to: 'Fresh' }],
    ['sort-request', { cow: '101', reason: 'lame', to: 'Dry', forWhom: 'the trimmer', from: '2026-03-14/afternoon' }],
    ['residue-test', { result: 'clear' }],
    ['residue-test', { cow: '101', result: 'clear' }],
    ['tank-collection', { tank: '1', litres: '10450', residueTest: 'waiting' }],
    ['head-count', { group: 'Milkers', count: '6', milking: '2026-03-14/afternoon' }],
    ['milking-finished', { milking: '2026-03-14/morning' }],
    ['service', { cow: '101', how: 'natural' }],
    ['pregnancy-check', { cow: '101', result: 'pregnant', servedOn: '2026-01-10' }],
    ['abortion', { cow: '101', milked: 'no', daysCarried: '120' }],
    [
      'cow-entered',
      {
        cow: '201',
        group: 'Milkers',
        lactation: '1',
        calvedOn: '2026-02-20',
        milkHoldUntil: 'none',
        meatHoldUntil: 'unknown',
      },
    ],
    ['number-changed', { cow: '101', to: '1101' }],
    ['cow-left', { cow: '101', reason: 'died' }],
  ];
  test.each(cases)('%s is written down from its form: %j', async (kind, fields) => {
    const desk = await aDesk();
    const before = entries(desk, kind).length;
    const done = await saved(desk, kind, fields);
    expect(done.text).toContain('It stands in the book');
    expect(entries(desk, kind).length - before).toBe((fields.cow ?? '').split(' ').length);
  });

  test('what depends on the cow asks for her first: a hold lifted, a request done, the vet, a course stopped', async () => {
    const desk = await aDesk();
    await saved(desk, 'milk-hold', { cow: '101', reason: 'clots' });
    await saved(desk, 'sort-request', { cow: '101', reason: 'lame' });
    await saved(desk, 'treatment', { ...dose, cow: '101', inCourse: 'first', of: '3', everyHours: '12' });
    const forCow = async (kind: string, fields: Record<string, string>) => {
      const asked = await desk.get(`/write/${kind}`);
      expect(asked.text).toContain('Which cow');
      const page = await desk.send(asked, { cow: '101' }, `/write/${kind}`);
      const form = page.document.querySelector('select:not([name=milkingAt])');
      const option = [...(form?.querySelectorAll('option') ?? [])]
        .map((each) => each.getAttribute('value'))
        .find(Boolean);
      const chosen = { [form?.getAttribute('name') ?? '']: option ?? '' };
      return desk.send(await desk.send(page, { ...chosen, ...fields }), { step: 'save' }, `/write/${kind}`);
    };
    await forCow('vet-hold-time', { milkHours: '200', prescribedBy: 'the vet' });
    await forCow('course-ended', { reason: 'the vet stopped it' });
    await forCow('milk-hold-lifted', { reason: 'milk normal' });
    await forCow('sort-done', {});
    for (const kind of ['vet-hold-time', 'course-ended', 'milk-hold-lifted', 'sort-done'])
      expect(entries(desk, kind), kind).toHaveLength(1);
    expect(entries(desk, 'vet-hold-time')).toMatchObject([{ data: { milkHours: 200 } }]);
  });
});

describe('taking back', () => {
  test('strikes with a reason, shows first what it frees, and once', async () => {
    const desk = await aDesk();
    const done = await saved(desk, 'treatment', dose);
    const link = done.document.querySelector('a[href^="/write/entry-struck"]')?.getAttribute('href') ?? '';
    const page = await desk.get(link);
    expect((await desk.send(page, {}, '/write/entry-struck')).text).toContain('Say why it is wrong');
    expect((await desk.send(page, { reason: 'wrong cow' }, '/write/entry-struck')).text).toContain(
      'what is true instead',
    );
    const check = await desk.send(page, { reason: 'wrong cow', instead: 'nothing' }, '/write/entry-struck');
    expect(check.text).toContain('1 cow fewer on milk hold');
    await desk.send(check, { step: 'save' }, '/write/entry-struck');
    desk.clock.set((desk.clock.now() + 120_000) as never);
    await desk.send(check, { step: 'save' }, '/write/entry-struck');
    expect(entries(desk, 'entry-struck')).toMatchObject([{ data: { reason: 'wrong cow' }, subject: '103' }]);
    expect((await desk.get(done.path)).text).toContain('taken back');
  });

  test('R-23 names the right entry where it was written down first, and asks on the sheet where nobody knows', async () => {
    const desk = await aDesk();
    const wrong = await saved(desk, 'treatment', dose);
    await saved(desk, 'treatment', { ...dose, cow: '104' });
    const link = wrong.document.querySelector('a[href^="/write/entry-struck"]')?.getAttribute('href') ?? '';
    const page = await desk.get(link);
    const right = entries(desk, 'treatment').find(({ subject }) => subject === '104')?.id ?? '';
    expect(page.document.querySelector(`option[value="${right}"]`)?.textContent).toContain('104 Treatment given');
    const strike = async (instead: string) =>
      desk.send(
        await desk.send(await desk.get(link), { reason: 'wrong cow', instead }, '/write/entry-struck'),
        { step: 'save' },
        '/write/entry-struck',
      );
    await strike('open');
    expect((await desk.get('/')).text).toContain('Find first: 103');
    expect(entries(desk, 'entry-struck')).toMatchObject([{ data: { reason: 'wrong cow' } }]);
  });

  test('crew strike their own and not another one’s, and are shown only what they may write', async () => {
    const desk = await aDesk();
    const crew = await desk.as('crew', 'Jo');
    const theirs = await saved(desk, 'treatment', dose);
    const link = theirs.document.querySelector('a[href^="/write/entry-struck"]')?.getAttribute('href') ?? '';
    const refused = await crew.send(await crew.get(link), { reason: 'no', instead: 'nothing' }, '/write/entry-struck');
    expect(refused.text).toContain('this device strikes only what it said itself');
    expect((await crew.get('/write')).text).not.toContain('Residue test');
    const lifted = await checked(crew, 'residue-test', { cow: '101', result: 'clear' });
    expect(lifted.text).toContain('may not write a residue-test');
    await saved(crew, 'milk-hold', { cow: '101', reason: 'clots' });
    expect(entries(desk, 'milk-hold')).toMatchObject([{ author: 'Jo', source: 'the crew' }]);
  });
});
