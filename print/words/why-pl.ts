/** Polish of why a cow is on a list or not. Wants a native reader of the trade before anybody relies on it. */
import type { Forms } from './format.ts';
import type { WhySays } from './why-en.ts';

const days: Forms = { one: '# dzień', few: '# dni', many: '# dni', other: '# dnia' };

export const whyPl: WhySays = {
  'why.tank-from': (v, f) =>
    v.tankFrom === null
      ? `jej mleko zostaje poza zbiornikiem po ${f.time(v.until)}; potem nie ma planowanego jej doju`
      : `${v.lastHeld === null ? '' : `dój ${f.milking(v.lastHeld)} nie zaczyna się po ${f.time(v.until)}, więc `}jej mleko może iść do zbiornika od ${f.milking(v.tankFrom)}`,
  'why.no-hold': () => 'nic nie wstrzymuje jej mleka',
  'why.not-milked': (v) => `w grupie ${v.group} nie jest dojona; jej wstrzymania czekają, aż będzie`,
  'why.not-on-last-sheet': () =>
    'nie było jej na ostatnim wydanym arkuszu wstrzymanego mleka albo nadal jest wstrzymana',
  'why.no-dose-due': () => 'żadna jej kuracja nie ma już dawki do podania',
  'why.dose-later': (v, f) =>
    `${v.medicine}: dawka ${v.dose} z ${v.of} planowana ${f.time(v.planned)}, najbliższy dój ${f.milking(v.due)}`,
  'why.not-in-milk': () => 'nie daje mleka',
  'why.not-in-calf': (v, f) =>
    v.daysInMilk === null
      ? 'cielność niepotwierdzona'
      : `cielność niepotwierdzona, ${f.count(v.daysInMilk, days)} laktacji; do decyzji są te powyżej ${v.limit}`,
  'why.dry-off-later': (v, f) =>
    `termin wycielenia ${f.day(v.due)}, zasuszenie ${f.day(v.dryOffOn)}: za więcej niż ${f.count(v.lookAheadDays, days)}`,
  'why.not-in-fresh-pen': (v) =>
    `stoi w grupie ${v.group}, nie w świeżo wycielonych, i nie wycieliła się tam ani nie jest na tydzień przed wycieleniem`,
  'why.nobody-asked': () => 'nikt o nią nie prosił i żadna lista nie chce jej oddzielić',
  'why.counted': (v) => `liczona w grupie ${v.group}, ${v.inMilk ? 'daje mleko' : 'nie daje mleka'}`,
  'why.minutes': (v, f) =>
    `zwykły czas doju ${f.number(v.minutes)} min (mediana ostatnich dziesięciu pomiarów); wolna od ${f.number(v.slowFrom)} min`,
  'why.no-minutes': () => 'nie zapisano jej czasów doju',
  'why.no-meat-hold': () => 'nic nie wstrzymuje jej mięsa',
};
