/** Rows for what was written on the paper by hand, as many as the paper has and more on request. */
import { QUARTERS } from '../../../events/fields.ts';
import { groupsInOrder } from '../../../projections/groups.ts';
import { say, sayWith } from '../say.tsx';
import { linesIn, WHATS } from './by-hand.ts';
import { BOXES, medicines } from './dry-off-line.ts';
import { Choice, OwnTime, Small, Trouble } from './parts.tsx';
import { quarterName } from './quarter-names.ts';
import type { View } from './view.ts';

type What = keyof typeof WHATS;

export const HandLines = ({ view }: { view: View }) => {
  const count = linesIn(view.form);
  const { milking, schedule } = view.book.span;
  const groups = groupsInOrder(schedule.inForceOn(milking.day).data).map(({ name }) => name);
  const whats = Object.entries(WHATS)
    .filter(([what]) => what === 'note' || view.may(what as Exclude<What, 'note'>))
    .map(([what, words]) => [what, say(words)] as const);
  const options = [['', say('nothing')] as const, ...whats];
  return (
    <>
      <h3>{say('Written by hand since printing')}</h3>
      <input type="hidden" name="lines" value={String(count)} />
      <datalist id="words">
        {[...medicines(view.book.knowledge.known), ...groups].map((word) => (
          <option value={word} />
        ))}
      </datalist>
      <ul class="lines">
        {Array.from({ length: count }, (_, index) => (
          <HandLine view={view} index={index} options={options} />
        ))}
      </ul>
      <p>
        <button type="submit" class="quiet" name="step" value="more">
          {say('More lines')}
        </button>
      </p>
    </>
  );
};

const HandLine = ({
  view,
  index,
  options,
}: {
  view: View;
  index: number;
  options: readonly (readonly [string, string])[];
}) => {
  const field = `hand.${index}`;
  const n = String(index + 1);
  const of = say('Line {n}', { n });
  const quarters = QUARTERS.filter((quarter) => BOXES.includes(quarter)).map(
    (quarter) => [quarter, quarterName(quarter)] as const,
  );
  return (
    <li class="on-paper by-hand" id={`line-${field}`}>
      <Trouble view={view} field={field} />
      <div class="beside">
        <Small view={view} field={`${field}.cow`} label={say('cow')} of={of} longest={20} />
        <Choice view={view} field={`${field}.what`} label={say('what')} of={of} options={options} />
        <Small
          view={view}
          field={`${field}.words`}
          label={say('which medicine, which group, or why')}
          of={of}
          longest={150}
          list="words"
        />
        <Small view={view} field={`${field}.by`} label={say('initials')} of={of} longest={40} />
        <OwnTime view={view} field={field} of={of} />
        <details
          open={['amount', 'unit', 'quarter', 'doses', 'hours'].some((name) => view.form.one(`${field}.${name}`))}
        >
          <summary>
            {sayWith('more of a dose<unseen> on line {n}</unseen>', {
              n,
              unseen: (inner) => <span class="unseen">{inner}</span>,
            })}
          </summary>
          <div class="beside">
            <Small view={view} field={`${field}.amount`} label={say('amount')} of={of} longest={10} />
            <Small view={view} field={`${field}.unit`} label={say('unit')} of={of} longest={20} />
            <Choice
              view={view}
              field={`${field}.quarter`}
              label={say('quarter')}
              of={of}
              options={[['', say('not said ¦ on the sheet')], ...quarters]}
            />
            <Small view={view} field={`${field}.doses`} label={say('doses in all')} of={of} longest={3} digits />
            <Small view={view} field={`${field}.hours`} label={say('hours apart')} of={of} longest={5} digits />
          </div>
        </details>
      </div>
    </li>
  );
};
