/** Facts in a few readable lines for a terminal: what a manager wants to see before walking to the printer. */

import { formatFor } from '../../print/words/format.ts';
import { sayIn, wordsFor } from '../../print/words.ts';
import type { Because } from '../../projections/because.ts';
import type { Views } from '../../projections/views.ts';
import { dayOfMilking, parseMilkingId } from '../../shared/milking-id.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';
import { plural } from './settings.ts';

export interface Voice {
  readonly says: (because: Because) => string;
  readonly time: (instant: string) => string;
  readonly milking: (id: string) => string;
}

/** English, in the farm's own time. */
export const voiceOf = (views: Views): Voice => {
  const words = wordsFor('en');
  const frame = {
    zone: mustBe(parseZone(views.farm.timeZone)),
    near: dayOfMilking(mustBe(parseMilkingId(views.milking.id))),
  };
  const format = formatFor(words, frame);
  return { says: (because) => sayIn(words, because, frame), time: format.time, milking: format.milking };
};

const MOST = 12;

/** Alerts and doubts, which head every readable output. */
export const noticeLines = (views: Views): string[] => {
  const { says } = voiceOf(views);
  const block = (title: string, notices: Views['alerts']): string[] =>
    notices.length === 0
      ? []
      : [
          `${title} (${notices.length}):`,
          ...notices.slice(0, MOST).map((notice) => `  ! ${says(notice.because)}  [${notice.key}]`),
          ...(notices.length > MOST ? [`  … and ${notices.length - MOST} more, on the office sheet`] : []),
          '',
        ];
  return [...block('ALERTS', views.alerts), ...block('Doubts to settle', views.doubts)];
};

const numbers = (rows: readonly { readonly cow: string }[]): string => rows.map((row) => row.cow).join(' ');
const withNumbers = (text: string, rows: readonly { readonly cow: string }[]): string =>
  rows.length === 0 ? text : `${text}: ${numbers(rows)}`;

/** What stands on each sheet, in one line each. */
export const sheetLines = (views: Views): string[] => {
  const { sheets, milking, farm } = views;
  const voice = voiceOf(views);
  const hold = sheets['milk-hold'];
  const dry = sheets['dry-off'];
  const fresh = sheets['fresh-moves'];
  const plan = sheets['milking-plan'];
  return [
    `${farm.name}: ${voice.milking(milking.id)} milking, ${voice.time(milking.start)}`,
    `  milk hold     ${withNumbers(`${plural(hold.held.length, 'cow')}: milk out of the tank`, hold.held)}`,
    ...(hold.unplaced.length === 0
      ? []
      : [`    find first  ${hold.unplaced.map((row) => row.number ?? 'unreadable').join(' ')}`]),
    `    bands off   ${withNumbers(plural(hold.cleared.length, 'cow'), hold.cleared)}`,
    `    treat now   ${withNumbers(plural(hold.treat.length, 'dose'), hold.treat)}`,
    `  dry-off       ${withNumbers(`${plural(dry.due.length, 'cow')} due`, dry.due)}; ${dry.undecided.length} undecided`,
    `  fresh moves   ${withNumbers(`${fresh.out.length} out`, fresh.out)}; ${fresh.stay.length} stay; ${withNumbers(`${fresh.in.length} in`, fresh.in)}`,
    `  sort          ${withNumbers(plural(sheets.sort.cows.length, 'cow'), sheets.sort.cows)}; ${sheets.sort.cannot.length} won't come through`,
    `  counts        ${sheets.counts.groups.map((row) => `${row.group} ${row.head}`).join(', ')}; ${sheets.counts.total.inMilk} in milk`,
    `  milking plan  ${Math.round(plan.minutes)} minutes, ends ${voice.time(plan.ends)}`,
    `  beef hold     ${plural(sheets['beef-hold'].cows.length, 'cow')}`,
  ];
};
