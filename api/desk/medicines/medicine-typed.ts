/** A label as it stands in the fields of its form. */
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import { type Typed, typedOf } from '../controls.tsx';

/** Steps of a meat hold that goes by the number of doses. */
export const MOST_STEPS = 4;

export const typedLabel = (label: Partial<MedicineListed>): Typed => {
  const fields = new Map<string, readonly string[]>();
  const put = (name: string, value: string | number | undefined): void => {
    if (value !== undefined) fields.set(name, [String(value)]);
  };
  const { milkHold, meatDays, dryCow } = label;
  put('name', label.name);
  put('active', label.active);
  put('kind', label.kind);
  put('route', label.route);
  if (label.for !== undefined) fields.set('for', label.for);
  if (milkHold !== undefined) put('milk', typeof milkHold === 'string' ? milkHold : 'hold');
  if (typeof milkHold === 'object') {
    put('milkHours', milkHold.hours);
    put('milkMilkings', milkHold.milkings);
  }
  if (meatDays !== undefined)
    put('meat', meatDays === 'unknown' ? 'unknown' : typeof meatDays === 'number' ? 'days' : 'steps');
  if (typeof meatDays === 'number') put('meatDays', meatDays);
  if (typeof meatDays === 'object')
    meatDays.forEach((step, index) => {
      put(`step-${index}-upToDoses`, step.upToDoses);
      put(`step-${index}-days`, step.days);
    });
  if (dryCow !== undefined) {
    const after = dryCow.milkHoldAfterCalving;
    put('dryCow', 'yes');
    put('minimumDryDays', dryCow.minimumDryDays);
    put('afterCalving', after === 'none' ? 'none' : 'hold');
    if (after !== 'none') {
      put('afterHours', after.hours);
      put('afterMilkings', after.milkings);
    }
    put('meatHoursAfterCalving', dryCow.meatHoursAfterCalving);
    put('earlyCalving', dryCow.earlyCalving);
  }
  put('maxDoses', label.maxDoses);
  put('minIntervalHours', label.minIntervalHours);
  put('notFromAgeMonths', label.notFromAgeMonths);
  if (label.authorisedForMilkAnimals === false) put('notForMilkAnimals', 'yes');
  if (label.authorisedForFoodAnimals === false) put('notForFoodAnimals', 'yes');
  if (label.retired === true) put('retired', 'yes');
  return typedOf(fields);
};
