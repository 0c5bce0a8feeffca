/**
 * The herd's rows for a spreadsheet: the same rows in the same order as on the page. Times are the farm's own with their
 * offset; a cell that a spreadsheet would take for a formula has an apostrophe before it, as in the log's table.
 */
import { stringify } from 'csv-stringify/sync';
import type { Schedule } from '../../../projections/schedule.ts';
import { DAY, type Instant, MINUTE } from '../../../shared/instant.ts';
import { dayNumber } from '../../../shared/local-day.ts';
import type { HerdRow } from './herd-rows.ts';

const NO_END = 'no end known';

const columns: readonly (readonly [header: string, cell: (row: HerdRow, time: (at: Instant) => string) => string])[] = [
  ['number', (row) => row.number],
  ['official number', (row) => row.officialId ?? ''],
  ['group', (row) => row.group],
  ['lactation', (row) => String(row.lactation)],
  ['days in milk', (row) => (row.daysInMilk === null ? '' : String(row.daysInMilk))],
  ['in milk', (row) => (row.inMilk ? 'yes' : 'no')],
  ['milk on hold', (row) => ({ held: 'yes', waits: 'when milked again', none: 'no' })[row.milk.hold]],
  [
    'milk hold until',
    (row, time) => (row.milk.hold === 'none' ? '' : row.milk.until === null ? NO_END : time(row.milk.until)),
  ],
  ['in the tank from', (row) => row.milk.tankFrom ?? ''],
  ['meat on hold', (row) => (row.meat.held ? 'yes' : 'no')],
  ['meat hold until', (row, time) => (!row.meat.held ? '' : row.meat.until === null ? NO_END : time(row.meat.until))],
  ['calving due', (row) => row.due ?? ''],
];

/** RFC 4180, with a byte order mark so that a spreadsheet reads the letters right. */
export const herdCsv = (rows: readonly HerdRow[], schedule: Schedule): string =>
  stringify(
    rows.map((row) => columns.map(([, cell]) => cell(row, (at) => farmTime(schedule, at)))),
    {
      header: true,
      columns: columns.map(([header]) => header),
      escape_formulas: true,
      bom: true,
      record_delimiter: 'windows',
    },
  );

/** `2026-03-17T04:40:00+01:00`: the farm's wall clock, and by how much it differs from UTC. */
const farmTime = (schedule: Schedule, at: Instant): string => {
  const { zone } = schedule.inForceAt(at);
  const day = zone.dayOf(at);
  const wall = dayNumber(day) * DAY + Math.floor(zone.wallMinutes(at)) * MINUTE;
  const offset = Math.round(wall / MINUTE) - Math.floor(at / MINUTE);
  const two = (value: number): string => String(value).padStart(2, '0');
  const size = Math.abs(offset);
  const seconds = new Date(at).toISOString().slice(17, 19);
  return `${new Date(wall).toISOString().slice(0, 16)}:${seconds}${offset < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
};
