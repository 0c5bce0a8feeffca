/** The desk's sentences in every language the paper speaks: complete, alike in what they name, said with what they need, and chosen by the reader. */
import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, test } from 'vitest';
import { hearer, speakTo } from '../../../api/desk/hearer.ts';
import { TABLES } from '../../../api/desk/said/every.ts';
import { englishOf, type Sentences } from '../../../api/desk/said/sentences.ts';
import { say, sayWith } from '../../../api/desk/say.tsx';
import { LANGUAGES } from '../../../print/words.ts';
import { farmEntries } from '../server/a-server.ts';
import { aDesk, browserOf } from './a-desk.ts';
import { deskFiles, saidCalls, sourceOf, unsaid } from './desk-sources.ts';
import { leftInEnglish } from './left-in-english.ts';

type Part = ReturnType<IntlMessageFormat['getAst']>[number];
type Message = readonly Part[];

const every = Object.entries<Sentences>(TABLES).flatMap(([table, sentences]) =>
  Object.entries(sentences).map(([key, others]) => ({ table, key, said: { en: englishOf(key), ...others } })),
);
const read = (text: string, language: string): Message => new IntlMessageFormat(text, language).getAst();

/** All parts of a message, those within branches and tags too. */
const partsOf = (message: Message): readonly Part[] =>
  message.flatMap((part) => [
    part,
    ...('children' in part ? partsOf(part.children) : []),
    ...('options' in part ? Object.values(part.options).flatMap(({ value }) => partsOf(value)) : []),
  ]);
const isPlural = (part: Part) => 'options' in part && 'pluralType' in part;
const isPound = (part: Part): boolean => !('value' in part);
/** What a message names: its values and its tags, each with what it is. */
const namesIn = (message: Message): readonly string[] => [
  ...new Set(
    partsOf(message).flatMap((part) => {
      if ('children' in part) return [`<${part.value}>`];
      if ('options' in part) return [`${part.value}, ${isPlural(part) ? 'plural' : 'select'}`];
      return 'value' in part && typeof part.value === 'string' && part.type !== 0 ? [part.value] : [];
    }),
  ),
];
/** Plain names, as a call gives them. */
const givenTo = (sentence: string): readonly string[] => [
  ...new Set(namesIn(read(englishOf(sentence), 'en')).map((name) => name.replace(/^<|>$|, (plural|select)$/g, ''))),
];

describe('the tables', () => {
  test('no sentence stands in two of them', () => {
    const keys = every.map(({ key }) => key);
    expect(keys.length).toBeGreaterThan(40);
    expect(keys.filter((key, index) => keys.indexOf(key) !== index)).toEqual([]);
  });

  test.each(LANGUAGES)('in %s each sentence can be read and names what its English names', (language) => {
    const other = every.filter(({ key, said }) => {
      // A branch or a number may be left out by a language, a name may not.
      const names = new Set(namesIn(read(said[language], language)).map((name) => name.replace(/, .*$/, '')));
      const wanted = givenTo(key).map((name) => (said.en.includes(`<${name}>`) ? `<${name}>` : name));
      return wanted.length !== names.size || wanted.some((name) => !names.has(name));
    });
    expect(other.map(({ key, said }) => [key, said[language]])).toEqual([]);
  });

  test.each(LANGUAGES)(
    'in %s each sentence with a count has every plural that the language counts with',
    (language) => {
      const rules = new Intl.PluralRules(language);
      const needed = new Set(['other', ...[...Array(200).keys()].map((count) => rules.select(count))]);
      const lacking = every.flatMap(({ said }) =>
        partsOf(read(said[language], language)).flatMap((part) =>
          'options' in part && isPlural(part)
            ? [...needed].filter((category) => part.options[category] === undefined).map((c) => [said[language], c])
            : [],
        ),
      );
      expect(lacking).toEqual([]);
    },
  );

  test.each(LANGUAGES)('in %s no form that serves for 21 leaves out the number', (language) => {
    const serves = new Intl.PluralRules(language).select(21) === 'one';
    const silent = every.filter(({ said }) =>
      partsOf(read(said[language], language)).some((part) => {
        if (!serves || !('options' in part) || !isPlural(part)) return false;
        const counts = ({ value }: { value: Message }): boolean => partsOf(value).some(isPound);
        const one = part.options.one;
        return one !== undefined && !counts(one) && Object.values(part.options).some(counts);
      }),
    );
    expect(silent.map(({ said }) => said[language])).toEqual([]);
  });

  test('no translation is left in English', () => {
    const MEAN = /\p{L}{4,}.*\s.*\p{L}{4,}/u;
    const left = every.flatMap(({ said }) =>
      LANGUAGES.filter(
        (language) => language !== 'en' && said[language] === said.en && MEAN.test(said.en.replace(/\{\w+\}/g, '')),
      ).map((language) => [language, said.en]),
    );
    expect(left).toEqual([]);
  });
});

describe('the pages', () => {
  /** Rooms and pages in which every text is said. */
  const SAID = [
    /^[a-z-]+\.tsx$/,
    /^cow\//,
    /^farm\//,
    /^herd\//,
    /^open\//,
    /^paper\//,
    /^records\//,
    /^write\//,
    /^medicines\//,
    /^begin\//,
    // One line for each room.
  ];

  test('each call that says a sentence gives the values it needs and no others', () => {
    const calls = deskFiles().flatMap(saidCalls);
    expect(calls.length).toBeGreaterThan(20);
    const wrong = calls.filter(({ sentence, values }) => {
      if (sentence === undefined || values === undefined) return false;
      return [...givenTo(sentence)].sort().join() !== [...values].sort().join();
    });
    expect(wrong).toEqual([]);
  });

  test('no text stands in a page without being said', () => {
    const files = deskFiles().filter((file) => file.endsWith('x') && SAID.some((each) => each.test(file)));
    expect(files.length).toBeGreaterThan(3);
    expect(files.flatMap((file) => unsaid(sourceOf(file)).map((text) => `${file}: ${text}`))).toEqual([]);
  });

  test.each([
    ['export const A = () => <p>Nobody is on hold.</p>;', 'Nobody is on hold.'],
    ["export const A = ({ n }) => <p>{n === 0 ? 'Nobody.' : n}</p>;", 'Nobody.'],
    ['export const A = () => <p>{`cow`}</p>;', 'cow'],
    ['export const A = () => <section aria-label="Sheets" />;', 'Sheets'],
    ["export const A = () => <Field label={'Date'} />;", 'Date'],
  ])('a text that is not said is seen: %s', (source, text) => {
    expect(unsaid(source)).toEqual([text]);
  });

  test('what is said, what is no word and what is marked as English is not taken for it', () => {
    const source = `export const A = ({ c }) => <p class="lead">{say('Nobody.')} · {c} <code lang="en">byrebook device</code></p>;`;
    expect(unsaid(source)).toEqual([]);
  });
});

describe('a page in Ukrainian', () => {
  const signedOut = async (path: string) => {
    const desk = await aDesk();
    const browser = browserOf(desk.server);
    await browser.post('/language', { language: 'uk', to: '/sign-in' });
    return { desk, page: await browser.get(path) };
  };

  test.each(['/sign-in', '/sign-in?code=used-already'])('%s is said in Ukrainian throughout', async (path) => {
    const { desk, page } = await signedOut(path);
    expect(leftInEnglish(desk, page)).toEqual([]);
  });

  test('a sentence left in English is found', async () => {
    const desk = await aDesk();
    expect(leftInEnglish(desk, await browserOf(desk.server).get('/sign-in'))).toContain('Sign: Sign in');
  });
});

describe('who hears which language', () => {
  const ukrainian = farmEntries().map((entry) =>
    entry.type === 'farm-set-up' && typeof entry.data === 'object'
      ? { ...entry, data: { ...entry.data, languages: ['uk', 'en'] } }
      : entry,
  );
  const spoken = (page: { document: { documentElement: Element } }) =>
    page.document.documentElement.getAttribute('lang');

  test('without a choice the desk speaks the first language of the farm, and English where that has no words', async () => {
    expect(spoken(await (await aDesk()).get('/'))).toBe('en');
    const page = await (await aDesk(ukrainian)).get('/herd');
    expect(spoken(page)).toBe('uk');
    expect(page.document.querySelector('header')?.textContent).toContain('Вийти');
  });

  test('a language chosen at the foot of the page is spoken from then on, on the page one was on, after signing out too', async () => {
    const desk = await aDesk();
    const there = await desk.send(await desk.get('/herd?q=10'), { language: 'pl' }, '/language');
    expect(there.path).toBe('/herd?q=10');
    expect(spoken(there)).toBe('pl');
    expect(there.document.querySelector('footer [aria-current]')?.textContent).toBe('Polski');
    const out = await desk.send(there, {}, '/sign-out');
    expect(out.path).toBe('/sign-in');
    expect(out.text).toContain('Zaloguj');
    expect(spoken(await desk.get('/sign-in'))).toBe('pl');
  });

  test('it can be chosen before signing in, and where one was going is kept', async () => {
    const desk = await aDesk();
    const browser = browserOf(desk.server);
    const page = await browser.send(await browser.get('/cow/101'), { language: 'fr' }, '/language');
    expect(page.text).toContain('Se connecter');
    const there = await browser.send(page, { person: 'Ola', token: desk.server.tokens.manager });
    expect(there.path).toBe('/cow/101');
    expect(spoken(there)).toBe('fr');
  });

  test('each language at the foot is named in itself and marked as being in it', async () => {
    const page = await (await aDesk()).get('/');
    const buttons = [...page.document.querySelectorAll('footer button')];
    expect(buttons.map((each) => [each.getAttribute('lang'), each.textContent])).toEqual([
      ['en', 'English'],
      ['es', 'Español'],
      ['fr', 'Français'],
      ['pl', 'Polski'],
      ['uk', 'Українська'],
    ]);
    expect(page.document.querySelector('footer form')?.getAttribute('method')).toBe('post');
  });

  test.each(['xx', 'constructor', '', '(uk)'])(
    '“%s” is no language: it is refused, and a cookie that says it is not heeded',
    async (language) => {
      const desk = await aDesk();
      const answer = await desk.post('/language', { language, to: '/' });
      expect(answer.status).toBe(400);
      expect(answer.text).toContain('not a language that is spoken here');
      expect(answer.response.headers.getSetCookie()).toEqual([]);
      const asked = await fetch(`${desk.server.url}/sign-in`, { headers: { cookie: `byrebook-language=${language}` } });
      expect(await asked.text()).toContain('<html lang="en">');
    },
  );

  test('the choice leads to no other site', async () => {
    const desk = await aDesk();
    const answer = await fetch(`${desk.server.url}/language`, {
      method: 'POST',
      redirect: 'manual',
      headers: { origin: desk.server.url },
      body: new URLSearchParams({ language: 'es', to: '//elsewhere.example/' }),
    });
    expect(answer.headers.get('location')).toBe('/');
    expect(answer.headers.get('set-cookie')).toMatch(
      /^byrebook-language=es; Path=\/; HttpOnly; SameSite=Strict; Max-Age=\d+$/,
    );
  });

  test('a page that answers a form does not offer it: what was typed would be lost', async () => {
    const desk = await aDesk();
    const looked = await desk.send(await desk.get('/farm/change'), { step: 'look', mark: 'tape' }, '/farm/change');
    expect(looked.path).toBe('/farm/change');
    expect(looked.document.querySelector('form[action="/language"]')).toBeNull();
  });

  test('a sign-in that failed offers it: the name that was typed comes along', async () => {
    const browser = browserOf((await aDesk()).server);
    const failed = await browser.post('/sign-in', { person: 'Ola & Kim', token: 'x', to: '/herd' });
    const to = failed.document.querySelector('form[action="/language"] input[name=to]')?.getAttribute('value') ?? '';
    const again = await browser.post('/language', { language: 'es', to });
    expect(again.document.querySelector('#person')?.getAttribute('value')).toBe('Ola & Kim');
    expect(again.document.querySelector('input[name=to]')?.getAttribute('value')).toBe('/herd');
    expect(again.text).toContain('Entrar');
  });

  test('two that are asked at once are each answered in their own language', async () => {
    const later = () => new Promise((done) => setTimeout(done, 5));
    const inTurn = (tag: string) =>
      speakTo({ tag }, async () => {
        await later();
        return [hearer().tag, say('Sign in')];
      });
    expect(await Promise.all([inTurn('es-MX'), inTurn('uk')])).toEqual([
      ['es-MX', 'Entrar'],
      ['uk', 'Увійти'],
    ]);
    expect(say('Sign in')).toBe('Sign in');
  });

  test('what was refused is said in the language chosen, and the English of the book is marked as English', async () => {
    const desk = await aDesk(ukrainian);
    const browser = browserOf(desk.server);
    const refused = await browser.post('/sign-in', { person: 'Ola', token: 'byre_000000000000_wrong' });
    expect(refused.document.querySelector('[role=alert]')?.textContent).toContain('Цей ключ тут не діє');
    const elsewhere = await fetch(`${desk.server.url}/language`, {
      method: 'POST',
      headers: { origin: 'https://elsewhere.example' },
      body: new URLSearchParams({ language: 'uk' }),
    });
    expect(await elsewhere.text()).toMatch(/role="alert"><span lang="en">A page of another site tried to write here/);
    const gone = await browser.post('/language', { language: 'xx' });
    expect(gone.document.querySelector('[role=alert]')?.textContent).toContain('тут цією мовою не говорять');
    expect(gone.text).toContain('Поверніться назад у браузері');
  });

  test('what stands in a value is text: it is neither read as a message nor as a part of the page', () => {
    expect(say('A device of the role {role} may not do that', { role: '<b>{x}' })).toContain('<b>{x}');
    expect(speakTo({ tag: 'fr' }, () => say('Request {id}', { id: '0012' }))).toBe('Demande 0012');
    const pieces = sayWith('Whoever keeps the book makes one with {command}; it is shown once.', { command: 'x < y' });
    expect(pieces).toContain('x < y');
  });

  test('in French a line never ends before a mark that has a space in front', () => {
    const said = speakTo({ tag: 'fr' }, () => say('Won’t come through: {cows}', { cows: '12 ; 13' }));
    expect(said).toBe('Ne passeront pas\u00a0: 12 ; 13');
  });

  test('a note that tells two words apart is never shown', () => {
    expect(englishOf('none ¦ of groups')).toBe('none');
  });
});
