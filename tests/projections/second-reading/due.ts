/** Cows still milked near their due date, for the second reading: R-20 with R-42. */
import { type Cow, stands } from './cow.ts';
import type { Milking } from './farm.ts';
import type { Hold } from './hold.ts';
import { OPEN } from './label.ts';
import type { Book } from './treatment.ts';
import { dayAfter, dayOf } from './wall.ts';

const GESTATION = 283;
const CONFIRMS_FROM = 25;

/** The due date that is confirmed at an instant: one that was said wins over one that is counted from a service. */
const dueOn = (book: Book, cow: Cow, until: number): string | undefined => {
  const { zone } = book.farm;
  let said: string | undefined;
  let counted: string | undefined;
  let served: string[] = [];
  for (const entry of cow.entries) {
    if (entry.at > until) break;
    if (entry.type === 'cow-entered') {
      served = entry.data.servedOn === undefined ? served : [entry.data.servedOn];
      said = entry.data.dueOn;
    } else if (entry.type === 'pregnancy-check' && ['pregnant', 'twins'].includes(entry.data.result)) {
      const gestation = book.farm.rulesAt(entry.at).gestationDays ?? GESTATION;
      const on = dayOf(zone, entry.at);
      const confirmed = entry.data.servedOn ?? served.findLast((day) => dayAfter(day, CONFIRMS_FROM) <= on);
      said = entry.data.dueOn ?? said;
      if (confirmed !== undefined) counted = dayAfter(confirmed, gestation);
    } else if (
      ['service', 'calving', 'abortion'].includes(entry.type) ||
      (entry.type === 'pregnancy-check' && entry.data.result === 'empty')
    ) {
      said = undefined;
      counted = undefined;
      if (entry.type === 'service') served.push(dayOf(zone, entry.at));
      else if (entry.type !== 'pregnancy-check') served = [];
    }
  }
  return said ?? counted;
};

export const dueHolds = (book: Book, cow: Cow, milking: Milking, windowEnd: number): readonly Hold[] => {
  const days = milking.setUp.freshHold?.daysBeforeDue;
  const due = dueOn(book, cow, windowEnd);
  if (days === undefined || due === undefined || stands(cow, milking.start).state === 'away') return [];
  const near = dayAfter(due, -days) <= milking.id.slice(0, 10);
  return near ? [{ from: milking.start, end: OPEN, why: `due ${due}` }] : [];
};
