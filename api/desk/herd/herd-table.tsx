/** The herd's table: each heading sorts by it, up and then down; a cow on milk hold is marked by words and by an edge. */
import { instantText } from '../../../shared/instant.ts';
import { type Sentence, say } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import { addressOf, type Column, type HerdQuery } from './herd-query.ts';
import type { HerdRow } from './herd-rows.ts';

interface Shown {
  readonly column: Column;
  readonly title: Sentence;
  readonly cell: (row: HerdRow, format: Speaking['format']) => string;
  readonly isFigure?: boolean;
}

/** After the number, which heads its row. */
const SHOWN: readonly Shown[] = [
  { column: 'official', title: 'Official number', cell: (row) => row.officialId ?? '' },
  { column: 'group', title: 'Group', cell: (row) => row.group },
  { column: 'lactation', title: 'Lactation', cell: (row) => String(row.lactation), isFigure: true },
  { column: 'days', title: 'Days in milk', cell: (row) => String(row.daysInMilk ?? ''), isFigure: true },
  { column: 'in-milk', title: 'In milk', cell: (row) => say(row.inMilk ? 'yes' : 'no') },
  { column: 'milk-hold', title: 'Milk hold until', cell: (row, format) => milkText(row, format) },
  {
    column: 'tank-from',
    title: 'In the tank from',
    cell: ({ milk }, format) =>
      milk.hold !== 'held' ? '' : milk.tankFrom === null ? say('not known') : format.milking(milk.tankFrom),
  },
  { column: 'meat-hold', title: 'Meat hold until', cell: (row, format) => meatText(row, format) },
  { column: 'due', title: 'Calving due', cell: (row, format) => (row.due === null ? '' : format.day(row.due)) },
];

const milkText = ({ milk }: HerdRow, format: Speaking['format']): string => {
  if (milk.hold === 'none') return '';
  const end = milk.until === null ? say('no end known') : format.time(instantText(milk.until));
  return milk.hold === 'waits' ? say('not milked here; {end}', { end }) : end;
};

const meatText = ({ meat }: HerdRow, format: Speaking['format']): string =>
  !meat.held ? '' : meat.until === null ? say('no end known') : format.time(instantText(meat.until));

interface Props {
  readonly rows: readonly HerdRow[];
  readonly query: HerdQuery;
  readonly speaking: Pick<Speaking, 'format'>;
}

export const HerdTable = ({ rows, query, speaking: { format } }: Props) => (
  <section class="scroll" aria-label={say('Cows')} tabindex={0}>
    <table class="herd" aria-describedby="count">
      <thead>
        <tr>
          <Heading column="number" says="Number" query={query} />
          {SHOWN.map(({ column, title, isFigure }) => (
            <Heading column={column} says={title} query={query} isFigure={isFigure === true} />
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr class={row.milk.hold === 'held' ? 'held' : undefined}>
            <th scope="row">
              <a class="cow" href={`/cow/${encodeURIComponent(row.number)}`}>
                {row.number}
              </a>
              {query.find !== undefined && row.once.includes(query.find)
                ? ` ${say('once {number}', { number: query.find })}`
                : ''}
            </th>
            {SHOWN.map(({ cell, isFigure }) => (
              <td class={isFigure === true ? 'number' : undefined}>{cell(row, format)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);

const Heading = ({
  column,
  says,
  query,
  isFigure = false,
}: {
  column: Column;
  says: Sentence;
  query: HerdQuery;
  isFigure?: boolean;
}) => {
  const isSorted = query.sort === column;
  return (
    <th
      scope="col"
      class={isFigure ? 'number' : undefined}
      aria-sort={isSorted ? (query.down ? 'descending' : 'ascending') : undefined}
    >
      <a href={addressOf('/herd', query, { sort: column, down: isSorted && !query.down })}>
        {say(says)}
        {isSorted ? <span aria-hidden="true">{query.down ? ' ▼' : ' ▲'}</span> : null}
      </a>
    </th>
  );
};
