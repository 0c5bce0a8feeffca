/** For the herd manager's desk: alerts, doubts to settle, doses that nobody wrote down, and what waits for the vet. */
import type { Because } from '../projections/because.ts';
import type { Notice, Views } from '../projections/views.ts';
import { stack, texts, tick } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { continued, heading, none, type Pick, type Setting, table } from './parts.ts';
import { DESK_TEXT, SMALL } from './sizes.ts';
import { type Column, GAP, piece, row, titles } from './table.ts';

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
    ...reasons(
      setting,
      'open',
      openEnded(views),
      ({ labels }) => labels.openEnded,
      ({ labels }) => labels.nobodyOpenEnded,
    ),
    ...notReturned(setting),
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
      [
        stack([texts(speech.says(each.because), { size: DESK_TEXT }, room), texts([each.key], { size: SMALL }, room)]),
        tick,
      ],
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
        desk: true,
        columns: [
          { title: ({ labels }) => labels.why, width: 'rest' },
          { title: ({ labels }) => labels.done, width: 46 },
        ],
        cells: (each, [room = 0]) => [
          texts(each.reasons.flatMap(setting.speech.says), { size: DESK_TEXT }, room),
          tick,
        ],
      });

/** A set that nobody wrote up: what was done on it is not on the book yet. */
const notReturned = (setting: Setting): Piece[] => {
  const { notReturned: sets } = setting.views;
  if (sets.length === 0) return [none(setting, ({ labels }) => labels.allReturned)];
  const said = sets.map(({ ref, milking }) =>
    piece(
      'note',
      'P',
      texts(
        setting.speech.each(({ format }) => `${ref}, ${format.milking(milking)}`),
        { size: DESK_TEXT },
        setting.width,
      ),
      { above: 2 },
    ),
  );
  return [heading(setting, ({ labels }) => labels.notReturned), ...said];
};

const dosesMissing = ({ sheets }: Views): CowReasons[] =>
  byCow([
    ...sheets['milk-hold'].held.flatMap(({ cow, reasons: all }) =>
      all.filter(({ key }) => key === 'hold.dose-not-recorded').map((because) => ({ cow, because })),
    ),
    ...sheets['milk-hold'].treat.filter(({ overdue }) => overdue),
  ]);

/** Holds that only the vet can end, and cows whose pregnancy nobody has confirmed. */
const VET: ReadonlySet<string> = new Set<Because['key']>([
  'hold.not-for-milking-cows',
  'hold.off-label-no-vet',
  'hold.off-label-milkings-only',
  'hold.dry-cow-early',
  'hold.dry-cow-milked-again',
  'meat.off-label-no-vet',
]);

const forTheVet = ({ sheets }: Views): CowReasons[] =>
  byCow([
    ...[...sheets['milk-hold'].held, ...sheets['beef-hold'].cows].flatMap(({ cow, reasons: all }) =>
      all.filter(({ key }) => VET.has(key)).map((because) => ({ cow, because })),
    ),
    ...sheets['dry-off'].undecided,
  ]);

/** What the wall tells the crew to ask about, and neither a dose nor the vet's word would end. */
const openEnded = ({ sheets }: Views): CowReasons[] =>
  byCow(
    [...sheets['milk-hold'].held, ...sheets['beef-hold'].cows]
      .filter(({ until }) => until === null)
      .flatMap(({ cow, reasons: all }) =>
        all.filter((each) => !hasEnd(each) && !isSaidAbove(each)).map((because) => ({ cow, because })),
      ),
  );

const hasEnd = ({ values }: Because): boolean =>
  ('ends' in values && values.ends !== null) || ('until' in values && values.until !== null);

const isSaidAbove = ({ key }: Because): boolean =>
  VET.has(key) || key === 'hold.dose-not-recorded' || key === 'meat.dose-not-recorded';

/** One row a cow, her reasons in the order given. */
const byCow = (list: readonly { readonly cow: string; readonly because: Because }[]): CowReasons[] => {
  const cows = new Map<string, Because[]>();
  for (const { cow, because } of list) cows.set(cow, [...(cows.get(cow) ?? []), because]);
  return [...cows].map(([cow, all]) => ({ cow, reasons: all }));
};
