/**
 * Which language the desk speaks: the one that was chosen in this browser, else the farm's first, else English. The choice
 * is a cookie of its own: it is there before signing in, and stays after signing out.
 */
import { parse } from 'hono/utils/cookie';
import { isSpoken, LANGUAGES, spokenOf } from '../../print/words.ts';
import type { Desk } from './ask.ts';
import { hearer, spokenNow } from './hearer.ts';
import { say } from './say.tsx';

const COOKIE = 'byrebook-language';
const YEAR_SECONDS = 365 * 24 * 60 * 60;

/** The tag to speak in. A book that can't be read now must still be able to say so: in English. */
export const tagFor = (desk: Desk, request: Request): string => {
  const chosen = spokenOf(parse(request.headers.get('cookie') ?? '', COOKIE)[COOKIE] ?? '');
  const farms = farmTags(desk);
  if (chosen === undefined) return farms[0] ?? 'en';
  return farms.find((tag) => spokenOf(tag) === chosen) ?? chosen;
};

const farmTags = ({ knowing, now }: Desk): readonly string[] => {
  try {
    return (knowing.now().known.farm.schedule?.inForceAt(now()).data.languages ?? []).filter(isSpoken);
  } catch {
    return [];
  }
};

export const languageCookie = (language: string, secure: string): string =>
  `${COOKIE}=${language}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${YEAR_SECONDS}${secure}`;

/** A language's own name for itself. */
const nameOf = (language: string): string => {
  const name = new Intl.DisplayNames([language], { type: 'language' }).of(language) ?? language;
  return name.slice(0, 1).toLocaleUpperCase(language) + name.slice(1);
};

const NAMES = LANGUAGES.map((language) => [language, nameOf(language)] as const);

/** At the foot of each page that can be asked for again. */
export const LanguageChoice = () => {
  const { page } = hearer();
  if (page === undefined) return null;
  return (
    <form class="languages" method="post" action="/language" aria-label={say('Language')}>
      <input type="hidden" name="to" value={page} />
      {NAMES.map(([language, name]) => (
        <button
          class="quiet"
          type="submit"
          name="language"
          value={language}
          lang={language}
          aria-current={language === spokenNow() ? 'true' : undefined}
        >
          {name}
        </button>
      ))}
    </form>
  );
};
