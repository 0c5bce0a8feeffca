/** For the herd manager's desk: alerts, doubts to settle, doses that nobody wrote down, and what waits for the vet. */
import type { Because } from '../projections/because.ts';
import type { Notice, Views } from '../projections/views.ts';
import { stack, texts, tick } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { continued, heading, none, type Pick, type Setting, table } from './parts.ts';
import { SMALL, TEXT } from './sizes.ts';
import { type Column, GAP, row, titles } from './table.ts';

export const office = (setting: Setting): Piece[] => {
  const { views } = setting;
  return [
    ...notices(
      setting,
      'alerts',
      views.alerts,
      ({ labels }) => labels.alerts,
      ({ labels }) => labels.noAlerts,
    ),
    ...reasons(
      setting,
      'doses',
      dosesMissing(views),
      ({ labels }) => labels.dosesMissing,
      ({ labels }) => labels.noDosesMissing,
    ),
    ...reasons(
      setting,
      'vet',
      forTheVet(views),
      ({ labels }) => labels.forTheVet,
      ({ labels }) => labels.nothingForTheVet,
    ),
    ...notices(
      setting,
      'doubts',
      views.doubts,
      ({ labels }) => labels.doubts,
      ({ labels }) => labels.noDoubts,
    ),
  ];
};

/** Each with the key that a settling names, small. */
const notices = (setting: Setting, name: string, list: readonly Notice[], pick: Pick, empty: Pick): Piece[] => {
  if (list.length === 0) return [none(setting, empty)];
  const { speech, width } = setting;
  const room = width - tick.width - 26 - GAP;
  const columns: Column[] = [
    { title: [], width: room },
    { title: speech.each(({ labels }) => labels.done), width: tick.width + 26 },
  ];
  const spec = table(setting, name, columns, continued(setting, pick));
  const head = titles(spec);
  const body = list.flatMap((each) =>
    row(
      spec,
      [stack([texts(speech.says(each.because), { size: TEXT }, room), texts([each.key], { size: SMALL }, room)]), tick],
      1,
      head,
    ),
  );
  return [heading(setting, pick), head, ...body];
};

interface CowReasons {
  readonly cow: string;
  readonly reasons: readonly Because[];
}

const reasons = (setting: Setting, name: string, rows: readonly CowReasons[], pick: Pick, empty: Pick): Piece[] =>
  rows.length === 0
    ? [none(setting, empty)]
    : cowTable(setting, {
        name,
        heading: pick,
        rows,
        near: true,
        columns: [
          { title: ({ labels }) => labels.why, width: 'rest' },
          { title: ({ labels }) => labels.done, width: 46 },
        ],
        cells: (each, [room = 0]) => [
          stack(each.reasons.map((reason) => texts(setting.speech.says(reason), { size: TEXT }, room))),
          tick,
        ],
      });

const dosesMissing = ({ sheets }: Views): CowReasons[] => [
  ...sheets['milk-hold'].held.flatMap((row) => {
    const missing = row.reasons.filter((reason) => reason.key === 'hold.dose-not-recorded');
    return missing.length === 0 ? [] : [{ cow: row.cow, reasons: missing }];
  }),
  ...sheets['milk-hold'].treat.filter((row) => row.overdue).map((row) => ({ cow: row.cow, reasons: [row.because] })),
];

/** Holds that only the vet can end, and cows whose pregnancy nobody has confirmed. */
const VET: ReadonlySet<string> = new Set<Because['key']>([
  'hold.not-for-milking-cows',
  'hold.off-label-no-vet',
  'hold.off-label-milkings-only',
  'hold.dry-cow-early',
  'hold.dry-cow-milked-again',
  'meat.off-label-no-vet',
]);

const forTheVet = ({ sheets }: Views): CowReasons[] => {
  const cows = new Map<string, Because[]>();
  const add = (cow: string, because: Because): void => {
    const have = cows.get(cow);
    if (have === undefined) cows.set(cow, [because]);
    else have.push(because);
  };
  for (const row of sheets['milk-hold'].held) {
    for (const reason of row.reasons) if (VET.has(reason.key)) add(row.cow, reason);
  }
  for (const row of sheets['beef-hold'].cows) {
    for (const reason of row.reasons) if (VET.has(reason.key)) add(row.cow, reason);
  }
  for (const row of sheets['dry-off'].undecided) add(row.cow, row.because);
  return [...cows].map(([cow, because]) => ({ cow, reasons: because }));
};
