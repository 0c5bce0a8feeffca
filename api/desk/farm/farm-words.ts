/** A farm's set-up in plain words of whoever asks, a line a thing: for reading, and for saying what a change changes. */
import type { FarmSetUp } from '../../../events/kinds/farm-set-up.ts';
import type { Sentence } from '../said/every.ts';
import { say } from '../say.tsx';

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
} as const satisfies Record<FarmSetUp['groups'][number]['kind'], Sentence>;

export const OFF_LABEL_WORDS = {
  vet: 'the vet’s time, else held until the vet says',
  'eu-2019-6': 'the least times of Regulation (EU) 2019/6, Article 115',
} as const satisfies Record<NonNullable<FarmSetUp['offLabel']>, Sentence>;

export const setUpLines = (data: FarmSetUp): readonly Line[] => {
  const line = (what: string, says: string, key = what): Line => ({ what, says, key });
  const { parlour, freshHold = {}, dryOff = {} } = data;
  return [
    line(say('Name'), data.name),
    line(say('Time zone'), data.timeZone),
    ...data.milkings.map(({ name, start }) => line(say('Milking {name}', { name }), say('starts {start}', { start }))),
    line(
      say('Parlour'),
      [
        say('{n, plural, one {# stall} other {# stalls}}', { n: parlour.stalls }),
        say('{n} minutes a turn', { n: parlour.turnMinutes }),
        say('a cow is slow from {n} minutes', { n: parlour.slowFromMinutes ?? 10 }),
        ...(parlour.slowExtraMinutes === undefined
          ? []
          : [say('{n} minutes more for each slow one', { n: parlour.slowExtraMinutes })]),
      ].join(', '),
    ),
    ...data.groups.map((group) => line(say('Group {name}', { name: group.name }), groupSays(group))),
    line(say('Fresh hold'), freshSays(freshHold)),
    ...(freshHold.daysBeforeDue === undefined
      ? []
      : [
          line(
            say('Near her due date'),
            say('held when milked within {n, plural, one {# day} other {# days}} of it', {
              n: freshHold.daysBeforeDue,
            }),
          ),
        ]),
    line(
      say('Fresh pen'),
      data.freshHoldMayMove === true
        ? say('{stay}; on her fresh hold alone she may move', { stay: staySays(data.freshPenHours) })
        : say('{stay}; on her fresh hold alone she stays', { stay: staySays(data.freshPenHours) }),
    ),
    line(
      say('Dry-off'),
      [
        say('{n} days before calving', { n: dryOff.days ?? 60 }),
        say('at the least {n}', { n: dryOff.minimumDays ?? 45 }),
        dryOff.weekday === undefined ? say('on any weekday') : say('on a {weekday}', { weekday: say(dryOff.weekday) }),
        say('listed {n, plural, one {# day} other {# days}} ahead', { n: dryOff.lookAheadDays ?? 7 }),
        say('long milking from {n} days in milk', { n: dryOff.longMilkingDays ?? 305 }),
        ...(dryOff.product === undefined ? [] : [say('usually with {product}', { product: dryOff.product })]),
      ].join(', '),
    ),
    line(say('Pregnancy'), say('{n} days', { n: data.gestationDays ?? 283 })),
    line(say('Off-label use'), say(OFF_LABEL_WORDS[data.offLabel ?? 'vet'])),
    line(say('Mark of a held cow'), data.mark ?? say('none said')),
    line(say('Milk kept out goes'), milkToSays(data.milkTo)),
    line(say('Before milking'), listed(data.chores?.before)),
    line(say('After milking'), listed(data.chores?.after)),
    line(say('Foot bath'), listed(data.footBath?.map((day) => say(day)))),
    line(say('Phones'), listed(data.phones?.map(({ who, number }) => `${who} ${number}`))),
    line(say('Paper'), data.paper ?? 'A4'),
    line(say('Languages'), (data.languages ?? ['en']).join(', ')),
  ];
};

const listed = (values: readonly string[] | undefined): string =>
  values === undefined || values.length === 0 ? say('none ¦ of things listed') : values.join('; ');

const groupSays = (group: FarmSetUp['groups'][number]): string =>
  [
    say(GROUP_KIND_WORDS[group.kind]),
    ...(group.was === undefined ? [] : [say('called {names} before', { names: group.was.join(', ') })]),
    ...(group.milkedAt === undefined
      ? []
      : [
          group.milkedAt.length === 0
            ? say('at no milking')
            : say('only at {milkings}', { milkings: group.milkedAt.join(', ') }),
        ]),
    ...(group.takes === undefined || group.takes === 'any'
      ? []
      : [
          group.takes === 'first-lactation' ? say('takes first-lactation cows') : say('takes cows of later lactations'),
        ]),
    ...(group.order === undefined ? [] : [say('place {n}', { n: group.order })]),
    ...(group.capacity === undefined ? [] : [say('room for {n}', { n: group.capacity })]),
  ].join(', ');

const freshSays = ({ milkings, hours }: NonNullable<FarmSetUp['freshHold']>): string => {
  if (milkings === undefined)
    return hours === undefined
      ? say('NOT SET: every cow that calves is held without end until it is')
      : say('{hours, plural, one {# hour} other {# hours}} after calving', { hours });
  if (hours === undefined)
    return say('{milkings, plural, one {# milking} other {# milkings}} after calving', { milkings });
  return say(
    '{milkings, plural, one {# milking} other {# milkings}} and {hours, plural, one {# hour} other {# hours}} after calving, the later of the two',
    { milkings, hours },
  );
};

const staySays = (hours: number | undefined): string =>
  hours === undefined
    ? say('no time set, so cows stay until it is')
    : say('at least {n} hours after calving', { n: hours });

const milkToSays = (to: FarmSetUp['milkTo']): string => {
  if (to === undefined) return say('not said');
  if (typeof to === 'string') return to;
  return [
    ...(to.treated === undefined ? [] : [say('treated: {place}', { place: to.treated })]),
    ...(to.fresh === undefined ? [] : [say('fresh: {place}', { place: to.fresh })]),
    ...(to.abnormal === undefined ? [] : [say('abnormal: {place}', { place: to.abnormal })]),
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
