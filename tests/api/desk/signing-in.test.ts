/** Who gets to the desk, and how: a token or an address that works once; what other sites and other sessions can't do. */
import { describe, expect, test } from 'vitest';
import { aServer } from '../server/a-server.ts';
import { aDesk, browserOf } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

describe('signing in', () => {
  test('without a session every page sends to the sign-in and back to where one was going', async () => {
    const server = await aServer();
    const browser = browserOf(server);
    const page = await browser.get('/milking/2026-03-14/afternoon');
    expect(page.path).toBe('/sign-in?to=%2Fmilking%2F2026-03-14%2Fafternoon');
    const there = await browser.send(page, { person: 'Ola', token: server.tokens.manager });
    expect(there.path).toBe('/milking/2026-03-14/afternoon');
    expect(there.document.querySelector('header')?.textContent).toContain('Ola');
  });

  test('the cookie can be read by no script and sent by no other site', async () => {
    const server = await aServer();
    const answer = await fetch(`${server.url}/sign-in`, {
      method: 'POST',
      redirect: 'manual',
      body: new URLSearchParams({ person: 'Ola', token: server.tokens.crew, to: 'https://elsewhere.example/' }),
    });
    expect(answer.headers.get('set-cookie')).toMatch(/HttpOnly; SameSite=Strict/);
    expect(answer.headers.get('location')).toBe('/');
    expect(answer.headers.get('set-cookie')).not.toContain(server.tokens.crew);
  });

  test('a wrong token, a machine, another book and no name are refused with a sentence', async () => {
    const server = await aServer();
    const browser = browserOf(server);
    const page = await browser.get('/sign-in');
    const wrong = await browser.send(page, { person: 'Ola', token: 'byre_000000000000_wrong' });
    expect(wrong).toMatchObject({ status: 400 });
    expect(wrong.text).toContain('This token is not good here');
    expect((await browser.send(page, { person: 'Ola', token: server.tokens.machine })).text).toContain('has no desk');
    expect((await browser.send(page, { person: 'Ola', token: server.tokens.book })).status).toBe(400);
    expect((await browser.send(page, { person: ' ', token: server.tokens.manager })).text).toContain('Say your name');
    expect((await browser.get('/')).path).toContain('/sign-in');
  });

  test.each([
    ['es', 'Esta clave no vale aquí', 'No hay nada en esa dirección'],
    ['uk', 'Цей ключ тут не діє', 'За цією адресою нічого немає'],
  ])(
    'in %s a failed sign-in and a wrong address are said in that language, which may be changed there',
    async (language, wrong, nothing) => {
      const server = await aServer();
      const browser = browserOf(server);
      await browser.post('/language', { language, to: '/sign-in' });
      const failed = await browser.send(await browser.get('/sign-in?to=%2Fherd'), {
        person: 'Ola',
        token: 'byre_0_wrong',
      });
      expect(failed.status).toBe(400);
      expect(failed.text).toContain(wrong);
      const lost = await browser.get('/no-such-page');
      expect(lost.status).toBe(404);
      expect(lost.text).toContain(nothing);
      for (const [page, to] of [
        [failed, '/sign-in?to=%2Fherd&person=Ola'],
        [lost, '/no-such-page'],
      ] as const) {
        expect(page.document.documentElement.getAttribute('lang')).toBe(language);
        expect(page.document.querySelector('form[action="/language"] input[name=to]')?.getAttribute('value')).toBe(to);
        if (language === 'uk') expect(leftInEnglish({ book: server.book }, page)).toEqual([]);
      }
      const english = await browser.post('/language', { language: 'en', to: '/no-such-page' });
      expect(english.text).toContain('There is nothing at that address');
    },
  );

  test('an address that works once signs in once', async () => {
    const server = await aServer();
    const device = server.book.devices.list().find(({ role }) => role === 'manager');
    const path = server.serving.app.deskPathFor(device?.id ?? '');
    const first = browserOf(server);
    // Looking at it uses nothing up: browsers look ahead.
    await first.get(path);
    const there = await first.send(await first.get(path), { person: 'Marta' });
    expect(there.path).toBe('/');
    const again = await browserOf(server).get(path);
    expect(again.text).toContain('was used already');
    expect(again.document.querySelector('input[name=code]')).toBeNull();
  });

  test('a revoked device is out at the next click, and a changed cookie never was in', async () => {
    const desk = await aDesk();
    expect((await desk.get('/')).status).toBe(200);
    desk.book.devices.revoke('the manager');
    expect((await desk.get('/')).path).toContain('/sign-in');
    const forged = await fetch(`${desk.server.url}/`, {
      redirect: 'manual',
      headers: { cookie: 'byrebook-desk=eyJkZXZpY2UiOiJ4In0.AAAA' },
    });
    expect(forged.headers.get('location')).toContain('/sign-in');
  });

  test('signing out ends it', async () => {
    const desk = await aDesk();
    await desk.post('/sign-out', {});
    expect((await desk.get('/')).path).toContain('/sign-in');
  });

  test('a form of another site, of another session or of nobody writes nothing', async () => {
    const desk = await aDesk();
    const before = desk.book.head().position;
    const page = await desk.get('/');
    const once = page.document.querySelector('input[name=once]')?.getAttribute('value') ?? '';
    expect(once).not.toBe('');
    const foreign = await fetch(`${desk.server.url}/issue`, {
      method: 'POST',
      headers: { origin: 'https://elsewhere.example', 'content-type': 'application/x-www-form-urlencoded' },
      body: `once=${once}&milking=next`,
    });
    expect(foreign.status).toBe(403);
    const other = await desk.as('manager', 'Ola');
    expect((await other.post('/issue', { once, milking: 'next' })).status).toBe(403);
    expect((await desk.post('/issue', { milking: 'next' })).status).toBe(403);
    expect(desk.book.head().position).toBe(before);
  });
});

describe('the next milking', () => {
  test('one button issues the set once, however often it is pressed', async () => {
    const desk = await aDesk();
    const page = await desk.get('/');
    expect(page.text).toContain('No sheet is issued for this milking yet');
    const issued = await desk.send(page, {}, '/issue');
    expect(issued.path).toMatch(/^\/issued\/[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]$/);
    const again = await desk.send(page, {}, '/issue');
    expect(again.path).toBe(issued.path);
    expect(desk.book.read().entries.filter(({ type }) => type === 'sheet-issued')).toHaveLength(1);
    const link = issued.document.querySelector('a[href$="milk-hold.pdf"]')?.getAttribute('href') ?? '';
    const paper = await desk.get(link);
    expect(paper.response.headers.get('content-type')).toBe('application/pdf');
    expect(
      Buffer.from(await paper.response.arrayBuffer())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  });

  test('crew see the sheets but no button to issue them', async () => {
    const crew = await (await aDesk()).as('crew', 'Jo');
    const page = await crew.get('/');
    expect(page.text).toContain('milk out of the tank');
    expect(page.document.querySelector('form[action="/issue"]')).toBeNull();
    expect((await crew.post('/issue', { milking: 'next' })).status).toBe(403);
  });

  test('a name with tags in it is text, not a part of the page', async () => {
    const desk = await aDesk();
    const other = await desk.as('manager', '<script>alert(1)</script>');
    const page = await other.get('/');
    expect(page.html).not.toContain('<script>');
    expect(page.document.querySelector('header')?.textContent).toContain('<script>');
  });
});
