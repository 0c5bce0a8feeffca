/** A farm's set-up in plain words, a line a thing: for reading, and for saying what a change changes. */
import type { FarmSetUp } from '../../../events/kinds/farm-set-up.ts';
import { plural } from '../../command-line/settings.ts';

export interface Line {
  readonly what: string;
  readonly says: string;
  /** Things of a kind are compared name by name: a group, a milking. */
  readonly key: string;
}

export const GROUP_KIND_WORDS = {
  milking: 'milked',
  fresh: 'fresh pen, milked',
  hospital: 'hospital, milked last',
  dry: 'dry, not milked',
  'close-up': 'close to calving, not milked',
} as const satisfies Record<FarmSetUp['groups'][number]['kind'], string>;

export const OFF_LABEL_WORDS = {
  vet: 'the vet’s time, else held until the vet says',
  'eu-2019-6': 'the least times of Regulation (EU) 2019/6, Article 115',
} as const;

export const setUpLines = (data: FarmSetUp): readonly Line[] => {
  const line = (what: string, says: string, key = what): Line => ({ what, says, key });
  const { parlour, freshHold = {}, dryOff = {} } = data;
  return [
    line('Name', data.name),
    line('Time zone', data.timeZone),
    ...data.milkings.map(({ name, start }) => line(`Milking ${name}`, `starts ${start}`)),
    line(
      'Parlour',
      [
        plural(parlour.stalls, 'stall'),
        `${parlour.turnMinutes} minutes a turn`,
        `a cow is slow from ${parlour.slowFromMinutes ?? 10} minutes`,
        ...(parlour.slowExtraMinutes === undefined
          ? []
          : [`${parlour.slowExtraMinutes} minutes more for each slow one`]),
      ].join(', '),
    ),
    ...data.groups.map((group) => line(`Group ${group.name}`, groupSays(group))),
    line('Fresh hold', freshSays(freshHold)),
    ...(freshHold.daysBeforeDue === undefined
      ? []
      : [line('Near her due date', `held when milked within ${plural(freshHold.daysBeforeDue, 'day')} of it`)]),
    line(
      'Fresh pen',
      `${data.freshPenHours === undefined ? 'no time set, so cows stay until it is' : `at least ${data.freshPenHours} hours after calving`}; on her fresh hold alone she ${data.freshHoldMayMove === true ? 'may move' : 'stays'}`,
    ),
    line(
      'Dry-off',
      [
        `${dryOff.days ?? 60} days before calving`,
        `at the least ${dryOff.minimumDays ?? 45}`,
        dryOff.weekday === undefined ? 'on any weekday' : `on a ${dryOff.weekday}`,
        `listed ${plural(dryOff.lookAheadDays ?? 7, 'day')} ahead`,
        `long milking from ${dryOff.longMilkingDays ?? 305} days in milk`,
        ...(dryOff.product === undefined ? [] : [`usually with ${dryOff.product}`]),
      ].join(', '),
    ),
    line('Pregnancy', `${data.gestationDays ?? 283} days`),
    line('Off-label use', OFF_LABEL_WORDS[data.offLabel ?? 'vet']),
    line('Mark of a held cow', data.mark ?? 'none said'),
    line('Milk kept out goes', milkToSays(data.milkTo)),
    line('Before milking', listed(data.chores?.before)),
    line('After milking', listed(data.chores?.after)),
    line('Foot bath', listed(data.footBath)),
    line('Phones', listed(data.phones?.map(({ who, number }) => `${who} ${number}`))),
    line('Paper', data.paper ?? 'A4'),
    line('Languages', (data.languages ?? ['en']).join(', ')),
  ];
};

const listed = (values: readonly string[] | undefined): string =>
  values === undefined || values.length === 0 ? 'none' : values.join('; ');

const groupSays = (group: FarmSetUp['groups'][number]): string =>
  [
    GROUP_KIND_WORDS[group.kind],
    ...(group.milkedAt === undefined
      ? []
      : [group.milkedAt.length === 0 ? 'at no milking' : `only at ${group.milkedAt.join(', ')}`]),
    ...(group.takes === undefined || group.takes === 'any'
      ? []
      : [`takes ${group.takes === 'first-lactation' ? 'first-lactation cows' : 'cows of later lactations'}`]),
    ...(group.order === undefined ? [] : [`place ${group.order}`]),
    ...(group.capacity === undefined ? [] : [`room for ${group.capacity}`]),
  ].join(', ');

const freshSays = ({ milkings, hours }: NonNullable<FarmSetUp['freshHold']>): string => {
  if (milkings === undefined && hours === undefined)
    return 'NOT SET: every cow that calves is held without end until it is';
  const both = [
    ...(milkings === undefined ? [] : [plural(milkings, 'milking')]),
    ...(hours === undefined ? [] : [plural(hours, 'hour')]),
  ];
  return `${both.join(' and ')} after calving${both.length > 1 ? ', the later of the two' : ''}`;
};

const milkToSays = (to: FarmSetUp['milkTo']): string => {
  if (to === undefined) return 'not said';
  if (typeof to === 'string') return to;
  return [
    ...(to.treated === undefined ? [] : [`treated: ${to.treated}`]),
    ...(to.fresh === undefined ? [] : [`fresh: ${to.fresh}`]),
    ...(to.abnormal === undefined ? [] : [`abnormal: ${to.abnormal}`]),
  ].join('; ');
};

export interface Changed {
  readonly what: string;
  /** Null: it was not there, or is there no more. */
  readonly before: string | null;
  readonly after: string | null;
}

export const changedLines = (before: readonly Line[], after: readonly Line[]): readonly Changed[] => {
  const was = new Map(before.map((line) => [line.key, line]));
  const is = new Map(after.map((line) => [line.key, line]));
  return [
    ...after.flatMap((line): Changed[] => {
      const old = was.get(line.key)?.says ?? null;
      return old === line.says ? [] : [{ what: line.what, before: old, after: line.says }];
    }),
    ...before.flatMap((line): Changed[] =>
      is.has(line.key) ? [] : [{ what: line.what, before: line.says, after: null }],
    ),
  ];
};
