/** Ukrainian of why a cow is on a list or not. Wants a native reader of the trade before anybody relies on it. */
import type { Forms } from './format.ts';
import type { WhySays } from './why-en.ts';

const days: Forms = { one: '# день', few: '# дні', many: '# днів', other: '# дня' };

export const whyUk: WhySays = {
  'why.tank-from': (v, f) =>
    v.tankFrom === null
      ? `її молоко не в танк і після ${f.time(v.until)}; далі жодного її доїння не заплановано`
      : `${v.lastHeld === null ? '' : `доїння ${f.milking(v.lastHeld)} починається не після ${f.time(v.until)}, тож `}її молоко може йти в танк від ${f.milking(v.tankFrom)}`,
  'why.no-hold': () => 'ніщо не затримує її молока',
  'why.not-milked': (v) => `у групі ${v.group} її не доять; її затримки чекають, доки доїтимуть`,
  'why.not-on-last-sheet': () => 'її не було на останньому виданому аркуші затриманого молока, або вона ще затримана',
  'why.no-dose-due': () => 'у жодному її курсі не лишилося дози',
  'why.dose-later': (v, f) =>
    `${v.medicine}: доза ${v.dose} з ${v.of} за планом ${f.time(v.planned)}, найближче доїння ${f.milking(v.due)}`,
  'why.not-in-milk': () => 'вона не доїться',
  'why.not-in-calf': (v, f) =>
    v.daysInMilk === null
      ? 'тільність не підтверджено'
      : `тільність не підтверджено, ${f.count(v.daysInMilk, days)} лактації; вирішують про тих, у кого понад ${v.limit}`,
  'why.dry-off-later': (v, f) =>
    `отелення очікують ${f.day(v.due)}, запуск ${f.day(v.dryOffOn)}: більш як за ${f.count(v.lookAheadDays, days)}`,
  'why.not-in-fresh-pen': (v) =>
    `вона в групі ${v.group}, не в новотільних, і там не телилася, і до отелення їй понад тиждень`,
  'why.nobody-asked': () => 'ніхто її не просив, і жоден список не хоче її відділити',
  'why.counted': (v) => `рахується в групі ${v.group}, ${v.inMilk ? 'доїться' : 'не доїться'}`,
  'why.minutes': (v, f) =>
    `звичайний час доїння ${f.number(v.minutes)} хв (медіана останніх десяти записів); повільна від ${f.number(v.slowFrom)} хв`,
  'why.no-minutes': () => 'часу її доїння не записано',
  'why.no-meat-hold': () => 'ніщо не затримує її м’яса',
};
