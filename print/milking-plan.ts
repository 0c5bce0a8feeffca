/** The order of the groups with their start and finish, the slow cows by number, the chores, the foot bath. */
import type { PlanRow } from '../projections/views.ts';
import { type Instant, instantText, MINUTE, parseInstant } from '../shared/instant.ts';
import { mustBe } from '../shared/refusal.ts';
import { type Block, text, texts, tickFor } from './blocks.ts';
import type { Piece } from './pages.ts';
import { continued, cowNumber, heading, none, numberWidth, type Pick, type Setting, sentence, table } from './parts.ts';
import { HEADING } from './sizes.ts';
import { type Column, GAP, piece, row, titles } from './table.ts';

export const milkingPlan = (setting: Setting): Piece[] => [
  ...order(setting),
  ...slow(setting),
  ...footBath(setting),
  ...chores(setting, setting.views.farm.chores.before, ({ labels }) => labels.before),
  ...chores(setting, setting.views.farm.chores.after, ({ labels }) => labels.after),
];

const [COWS, TURNS, START, FINISH] = [66, 66, 84, 96];

const order = (setting: Setting): Piece[] => {
  const plan = setting.views.sheets['milking-plan'];
  const { speech, width, views } = setting;
  if (plan.groups.length === 0) return [none(setting, ({ labels }) => labels.nonePlanned)];
  const name = width - COWS - TURNS - START - FINISH - 4 * GAP;
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.order), width: name },
    { title: speech.each(({ labels }) => labels.cows), width: COWS },
    { title: speech.each(({ labels }) => labels.turns), width: TURNS },
    { title: speech.each(({ labels }) => labels.start), width: START },
    { title: speech.each(({ labels }) => labels.finish), width: FINISH },
  ];
  const pick: Pick = ({ labels }) => labels.plan;
  const spec = table(setting, 'plan', columns, continued(setting, pick));
  const head = titles(spec);
  const clock = (instant: string, room: number): Block =>
    texts(
      speech.each(({ format }) => format.clock(instant)),
      { size: HEADING, bold: true, figures: true },
      room,
    );
  const body = plan.groups.flatMap((each, index) =>
    row(
      spec,
      [
        text(`${index + 1}. ${each.group}`, { size: HEADING, bold: true }, name),
        text(String(each.cows), { size: HEADING, figures: true }, COWS),
        text(String(each.turns), { size: HEADING, figures: true }, TURNS),
        clock(each.start, START),
        clock(finishOf(each), FINISH),
      ],
      1,
      head,
    ),
  );
  const minutes = Math.round(plan.minutes);
  const whole: Pick = ({ labels, format }) =>
    labels.planTotal(
      format.clock(views.milking.start),
      format.clock(plan.ends),
      labels.duration(Math.floor(minutes / 60), minutes % 60, format),
    );
  return [heading(setting, pick), head, ...body, sentence(setting, whole, true)];
};

/** To the minute, rounded up: a group is not done before it is. */
const finishOf = (row: PlanRow): string => {
  const end = mustBe(parseInstant(row.start)) + row.minutes * MINUTE;
  return instantText((Math.ceil(end / MINUTE) * MINUTE) as Instant);
};

/** Numbers in columns, each with a box round it, so that two neighbours never read as one. */
const slow = (setting: Setting): Piece[] => {
  const { slow: cows } = setting.views.sheets['milking-plan'];
  if (cows.length === 0) return [none(setting, ({ labels }) => labels.noneSlow)];
  const cell = numberWidth(cows, 0) + 18;
  const across = Math.max(1, Math.floor((setting.width + 6) / (cell + 6)));
  const pick: Pick = ({ labels }) => labels.slow;
  const rows: Piece[] = [];
  for (let from = 0; from < cows.length; from += across) {
    const some = cows.slice(from, from + across).map((cow) => cowNumber(cow, cell - 12));
    const height = Math.max(...some.map((block) => block.height)) + 8;
    const line: Block = {
      width: setting.width,
      height,
      draw: (ink, x, y) =>
        some.forEach((block, index) => {
          const left = x + index * (cell + 6);
          ink.box(left, y, cell, height - 2, 1);
          block.draw(ink, left + 7, y + 4);
        }),
    };
    rows.push({
      ...piece('note', 'P', line, { above: 2, below: 2 }),
      lines: some.length,
      again: [continued(setting, pick)],
    });
  }
  return [heading(setting, pick), ...rows];
};

const footBath = (setting: Setting): Piece[] =>
  setting.views.farm.footBath
    ? [none(setting, ({ labels }) => labels.footBath)]
    : [sentence(setting, ({ labels }) => labels.noFootBath)];

const chores = (setting: Setting, list: readonly string[], pick: Pick): Piece[] =>
  list.length === 0
    ? []
    : [
        heading(setting, pick),
        ...list.map((chore) => piece('note', 'P', tickFor(chore, setting.width), { above: 1, below: 1 })),
      ];
