/** A farm's set-up as it stands in the fields of its form. What the form does not show stays with the set-up it began from. */
import type { FarmSetUp } from '../../../events/kinds/farm-set-up.ts';
import { type Typed, typedOf } from '../controls.tsx';

export const MOST_MILKINGS = 4;
export const MOST_LANGUAGES = 4;
export const MILK_USES = ['treated', 'fresh', 'abnormal'] as const;

const shown = (value: string | number | undefined): string[] => (value === undefined ? [] : [String(value)]);

/** `from`: the date that the new set-up is to count from. */
export const typedSetUp = (data: Partial<FarmSetUp>, from?: string): Typed => {
  const fields = new Map<string, readonly string[]>();
  const put = (name: string, value: string | number | undefined): void => {
    if (value !== undefined) fields.set(name, shown(value));
  };
  put('name', data.name);
  put('timeZone', data.timeZone);
  put('from', from);
  put('paper', data.paper);
  put('mark', data.mark);
  data.languages?.forEach((tag, index) => {
    put(`language-${index}`, tag);
  });
  data.milkings?.forEach(({ name, start }, index) => {
    put(`milking-${index}-name`, name);
    put(`milking-${index}-start`, start);
  });
  for (const [name, value] of Object.entries(data.parlour ?? {})) put(name, value);
  data.groups?.forEach((group, index) => {
    put(`group-${index}-name`, group.name);
    put(`group-${index}-kind`, group.kind);
    put(`group-${index}-takes`, group.takes);
    put(`group-${index}-order`, group.order);
    put(`group-${index}-capacity`, group.capacity);
    put(`group-${index}-was`, group.name);
    if (group.milkedAt === undefined) return;
    put(`group-${index}-milked`, 'only');
    const at = group.milkedAt.map((name) => data.milkings?.findIndex((milking) => milking.name === name) ?? -1);
    fields.set(`group-${index}-at`, at.map(String));
  });
  put('freshMilkings', data.freshHold?.milkings);
  put('freshHours', data.freshHold?.hours);
  put('daysBeforeDue', data.freshHold?.daysBeforeDue);
  put('freshPenHours', data.freshPenHours);
  if (data.freshHoldMayMove === true) put('freshHoldMayMove', 'yes');
  put('dryDays', data.dryOff?.days);
  put('minimumDays', data.dryOff?.minimumDays);
  put('weekday', data.dryOff?.weekday);
  put('lookAheadDays', data.dryOff?.lookAheadDays);
  put('longMilkingDays', data.dryOff?.longMilkingDays);
  put('product', data.dryOff?.product);
  put('gestationDays', data.gestationDays);
  put('offLabel', data.offLabel);
  for (const use of MILK_USES) put(`milkTo-${use}`, typeof data.milkTo === 'string' ? data.milkTo : data.milkTo?.[use]);
  put('before', data.chores?.before?.join('\n'));
  put('after', data.chores?.after?.join('\n'));
  if (data.footBath !== undefined) fields.set('footBath', data.footBath);
  data.phones?.forEach(({ who, number }, index) => {
    put(`phone-${index}-who`, who);
    put(`phone-${index}-number`, number);
  });
  return typedOf(fields);
};
