/** Why a cow is on a list or not, as the command line and her page at the desk say it; never on a sheet. */
import type { Says } from './dictionary.ts';
import type { Forms } from './format.ts';

const days: Forms = { one: '# day', other: '# days' };

export type WhySays = Pick<Says, Extract<keyof Says, `why.${string}`>>;

export const whyEn: WhySays = {
  'why.tank-from': (v, f) =>
    v.tankFrom === null
      ? `her milk stays out past ${f.time(v.until)}; no milking of hers is planned after that`
      : `${v.lastHeld === null ? '' : `the ${f.milking(v.lastHeld)} milking does not start after ${f.time(v.until)}, `}${v.lastHeld === null ? '' : 'so '}her milk may go in the tank from ${f.milking(v.tankFrom)}`,
  'why.no-hold': () => 'nothing holds her milk',
  'why.not-milked': (v) => `she is not milked in ${v.group}; her holds wait until she is`,
  'why.not-on-last-sheet': () => 'she was not on the last issued milk-hold sheet, or is still held',
  'why.no-dose-due': () => 'no course of hers has a dose left to give',
  'why.dose-later': (v, f) =>
    `${v.medicine}: dose ${v.dose} of ${v.of} planned ${f.time(v.planned)}, nearest milking ${f.milking(v.due)}`,
  'why.not-in-milk': () => 'she is not in milk',
  'why.not-in-calf': (v, f) =>
    v.daysInMilk === null
      ? 'not confirmed in calf'
      : `not confirmed in calf, ${f.count(v.daysInMilk, days)} in milk; undecided cows are those past ${v.limit}`,
  'why.dry-off-later': (v, f) =>
    `calving due ${f.day(v.due)}, dry-off ${f.day(v.dryOffOn)}: more than ${f.count(v.lookAheadDays, days)} ahead`,
  'why.not-in-fresh-pen': (v) =>
    `she stands in ${v.group}, not the fresh pen, and has not calved or come within a week of calving there`,
  'why.nobody-asked': () => 'nobody asked for her, and no list wants her caught',
  'why.counted': (v) => `counted in ${v.group}, ${v.inMilk ? 'in milk' : 'not in milk'}`,
  'why.minutes': (v, f) =>
    `usual milking time ${f.number(v.minutes)} min (median of her last ten records); slow from ${f.number(v.slowFrom)} min`,
  'why.no-minutes': () => 'no milking times are recorded for her',
  'why.no-meat-hold': () => 'nothing holds her meat',
};
