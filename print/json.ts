/**
 * The sheets as `print --json` gives them: the shape in the design, with every reason as an English sentence.
 * Instants stay RFC 3339 text in UTC, milkings their ids; local times appear in the sentences alone.
 */

import type { Because } from '../projections/because.ts';
import type { FreshMovesSheet, MilkHoldSheet, Notice, Views } from '../projections/views.ts';
import { dayOfMilking, parseMilkingId } from '../shared/milking-id.ts';
import { mustBe } from '../shared/refusal.ts';
import { parseZone } from '../shared/zone.ts';
import { formatFor } from './words/format.ts';
import { say, wordsFor } from './words.ts';

type Says = (because: Because) => string;

/** The whole answer of `print --json`; more fields may be added to it, none taken away. */
export const printedJson = (views: Views): unknown => {
  const words = wordsFor('en');
  const format = formatFor(words, {
    zone: mustBe(parseZone(views.farm.timeZone)),
    near: dayOfMilking(mustBe(parseMilkingId(views.milking.id))),
  });
  const says: Says = (because) => say(words, because, format);
  const notice = ({ key, because }: Notice) => ({
    key,
    rule: because.rule,
    says: says(because),
    entries: because.entries,
  });
  const { sheets } = views;
  return {
    milking: views.milking,
    nextMilking: views.nextMilking,
    asOf: views.asOf,
    position: views.position,
    farm: views.farm.name,
    alerts: views.alerts.map(notice),
    doubts: views.doubts.map(notice),
    notReturned: views.notReturned,
    sheets: {
      'milk-hold': milkHold(sheets['milk-hold'], says),
      'dry-off': {
        due: sheets['dry-off'].due.map((row) => ({
          cow: row.cow,
          group: row.group,
          dryOffOn: row.dryOffOn,
          calvingDue: row.calvingDue,
          daysOverdue: row.daysOverdue,
          product: row.product,
          warnings: row.warnings.map(says),
          why: says(row.because),
        })),
        undecided: sheets['dry-off'].undecided.map((row) => ({
          cow: row.cow,
          group: row.group,
          daysInMilk: row.daysInMilk,
          why: says(row.because),
        })),
      },
      'fresh-moves': freshMoves(sheets['fresh-moves'], says),
      sort: {
        cows: sheets.sort.cows.map((row) => ({
          cow: row.cow,
          group: row.group,
          reasons: row.reasons.map(says),
          // One place as text; several, which are a doubt, are all named.
          to: row.to.length === 0 ? null : row.to.join(' / '),
          places: row.to,
        })),
        cannot: sheets.sort.cannot.map((row) => ({
          cow: row.cow,
          why: says(row.because),
          reasons: row.reasons.map(says),
        })),
      },
      counts: {
        groups: sheets.counts.groups.map(({ cows: _, ...row }) => row),
        total: sheets.counts.total,
      },
      'milking-plan': sheets['milking-plan'],
      'beef-hold': {
        cows: sheets['beef-hold'].cows.map((row) => ({
          cow: row.cow,
          group: row.group,
          until: row.until,
          reasons: row.reasons.map(says),
        })),
      },
    },
  };
};

const milkHold = (sheet: MilkHoldSheet, says: Says) => ({
  held: sheet.held.map((row) => ({
    cow: row.cow,
    group: row.group,
    until: row.until,
    tankFrom: row.tankFrom,
    milkingsLeft: row.milkingsLeft,
    reasons: row.reasons.map(says),
    isNew: row.isNew,
    dryInMilkedGroup: row.dryInMilkedGroup,
    ask: row.ask,
  })),
  cleared: sheet.cleared.map((row) => ({
    cow: row.cow,
    group: row.group,
    since: row.since,
    notBefore: row.notBefore,
    reasons: row.reasons.map(says),
  })),
  gone: sheet.gone,
  treat: sheet.treat.map((row) => ({
    cow: row.cow,
    group: row.group,
    medicine: row.medicine,
    dose: row.dose,
    of: row.of,
    amount: row.amount,
    route: row.route,
    quarters: row.quarters,
    overdue: row.overdue,
    why: says(row.because),
  })),
  unplaced: sheet.unplaced.map((row) => ({ number: row.number, says: says(row.because), key: row.key })),
  groups: sheet.groups,
});

const freshMoves = (sheet: FreshMovesSheet, says: Says) => ({
  out: sheet.out.map((row) => ({
    cow: row.cow,
    from: row.from,
    to: row.to,
    why: says(row.because),
    warnings: row.warnings.map(says),
  })),
  stay: sheet.stay.map((row) => ({ cow: row.cow, group: row.group, why: says(row.because) })),
  in: sheet.in.map((row) => ({ cow: row.cow, group: row.group, why: says(row.because) })),
  pen: sheet.pen,
});
