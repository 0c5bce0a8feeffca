/** The printed lines of a set as a form, sheet by sheet and list by list in the paper's own order. */
import type { Child } from 'hono/jsx';
import type { EntryType } from '../../../events/kinds.ts';
import { assertNever } from '../../../shared/refusal.ts';
import { type Sentence, say } from '../say.tsx';
import { pensOf, standsNow } from './already.ts';
import { CountsTable } from './counts-table.tsx';
import { DryOffBoxes } from './dry-off-boxes.tsx';
import type { CountLine, PaperLine } from './on-paper.ts';
import { Choice, Line, OwnTime, Small } from './parts.tsx';
import { quarterName } from './quarter-names.ts';
import { saidIfCan } from './sayable.ts';
import { standing, type View } from './view.ts';

type Kind = PaperLine['kind'];

/** Lists of a sheet with what each is called on the paper. */
const LISTS: Readonly<Record<Kind, Sentence>> = {
  dose: 'Treat now',
  band: 'Bands off',
  dry: 'Dry off',
  undecided: 'Long in milk: decided',
  out: 'Out of the fresh pen',
  in: 'Into the fresh pen',
  pen: 'In the pen',
  sort: 'Sort',
  count: 'Head count',
};

const WRITES: Readonly<Record<Kind, EntryType>> = {
  dose: 'treatment',
  band: 'sheet-returned',
  dry: 'dry-off',
  undecided: 'sheet-returned',
  out: 'group-move',
  in: 'group-move',
  pen: 'sheet-returned',
  sort: 'sort-done',
  count: 'head-count',
};

/** One sheet with its lists. `children`: what stands on it after them. */
export const Sheet = ({
  view,
  title,
  kinds,
  children,
}: {
  view: View;
  title: string;
  kinds: readonly Kind[];
  children?: Child;
}) => {
  const lists = kinds.map((kind) => [kind, view.onPaper.lines.filter((line) => line.kind === kind)] as const);
  if (children === undefined && lists.every(([, lines]) => lines.length === 0)) return null;
  return (
    <section class="card sheet">
      <h2>{title}</h2>
      {lists.map(([kind, lines]) =>
        lines.length === 0 ? null : (
          <>
            {kinds.length === 1 ? null : <h3>{say(LISTS[kind])}</h3>}
            {kind === 'count' ? (
              <CountsTable view={view} lines={lines.filter((line): line is CountLine => line.kind === 'count')} />
            ) : (
              <ul class="lines">
                {lines.map((line) => (line.kind === 'count' ? null : <OneLine view={view} line={line} />))}
              </ul>
            )}
          </>
        ),
      )}
      {children}
    </section>
  );
};

const OneLine = ({ view, line }: { view: View; line: Exclude<PaperLine, CountLine> }) => {
  const { book, hand } = view;
  const stands = standsNow(book, line);
  const { field, cow } = line;
  const may = view.may(WRITES[line.kind]);
  const props = { view, field, cow, stands, may };
  const time = <OwnTime view={view} field={field} of={cow} />;
  switch (line.kind) {
    case 'dose': {
      const how = [
        line.amount === null ? '' : `${line.amount.value} ${line.amount.unit}`,
        line.route ?? '',
        ...line.quarters.map(quarterName),
      ].filter((part) => part !== '');
      return (
        <Line
          {...props}
          did={say('given ¦ a dose')}
          words={
            <>
              {say('{medicine}, dose {dose} of {of}', { medicine: line.medicine, dose: line.dose, of: line.of })}
              {how.length === 0 ? null : `; ${how.join(', ')}`} <i>{line.group}</i>
            </>
          }
        >
          <Small view={view} field={`${field}.by`} label={say('initials')} of={cow} />
          {time}
        </Line>
      );
    }
    case 'band':
      return <Line {...props} did={say('band off')} words={line.group} />;
    case 'dry': {
      const day = hand.format.day(line.dryOffOn);
      return (
        <Line
          {...props}
          did={say('dried off')}
          words={
            <>
              {line.daysOverdue > 0 ? say('due {day}, OVERDUE', { day }) : say('due {day}', { day })}{' '}
              <i>{line.group}</i>
              {line.warnings.map((warning) => (
                <span class="warned">! {saidIfCan(hand.says, warning)}</span>
              ))}
            </>
          }
        >
          <DryOffBoxes view={view} line={line} />
          {time}
        </Line>
      );
    }
    case 'undecided':
      return (
        <li class="on-paper">
          <p class="tick">
            <span class="cow">{cow}</span>{' '}
            {say('{days, plural, one {# day in milk} other {# days in milk}}', { days: line.daysInMilk })}{' '}
            <i>{line.group}</i>
          </p>
          <div class="beside">{may ? <Small view={view} field={field} label={say('decided')} of={cow} /> : null}</div>
        </li>
      );
    case 'out':
      return (
        <Line {...props} did={say('moved')} words={say('from {group} to {to}', { group: line.group, to: line.to })}>
          {time}
        </Line>
      );
    case 'in': {
      const pens = pensOf(book.span).map(({ name }) => [name, name] as const);
      return (
        <Line {...props} did={say('moved')} words={`${saidIfCan(hand.says, line.why)} (${line.group})`}>
          <Choice
            view={view}
            field={`${field}.to`}
            label={say('to ¦ which pen')}
            of={cow}
            printed={pens[0]?.[0]}
            options={pens}
          />
          {time}
        </Line>
      );
    }
    case 'pen':
      return (
        <li class="on-paper">
          <p class="tick">
            <span class="cow">{cow}</span> <i>{line.group}</i>
          </p>
          <div class="beside">
            <Small view={view} field={`${field}.temperature`} label={say('temperature')} of={cow} longest={10} />
            <Small view={view} field={`${field}.milk`} label={say('milk checked by')} of={cow} />
          </div>
        </li>
      );
    case 'sort':
      return (
        <Line
          {...props}
          did={say('sorted')}
          words={
            <>
              {line.reasons.map((reason) => saidIfCan(hand.says, reason)).join('; ')}
              {line.to.length === 0 ? '' : `; ${say('to {groups}', { groups: line.to.join(` ${say('or')} `) })}`}{' '}
              <i>{line.group}</i>
            </>
          }
        >
          {time}
        </Line>
      );
    default:
      return assertNever(line);
  }
};

/** Fields that the whole sheet has: who wrote it. */
export const WhoWrote = ({ view }: { view: View }) => (
  <p class="field">
    <label for="who">{say('Who wrote on the sheet')}</label>
    <input id="who" name="who" value={standing(view, 'who')} maxlength={80} autocomplete="off" />
    <span class="hint">{say('Counts as the giver of each dose that has no initials of its own.')}</span>
  </p>
);
