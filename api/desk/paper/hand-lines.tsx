/** Rows for what was written on the paper by hand, as many as the paper has and more on request. */
import { QUARTERS } from '../../../events/fields.ts';
import { groupsInOrder } from '../../../projections/groups.ts';
import { linesIn, WHATS } from './by-hand.ts';
import { BOXES, medicines } from './dry-off-line.ts';
import { Choice, OwnTime, Small, Trouble } from './parts.tsx';
import type { View } from './view.ts';

type What = keyof typeof WHATS;

export const HandLines = ({ view }: { view: View }) => {
  const count = linesIn(view.form);
  const { milking, schedule } = view.book.span;
  const groups = groupsInOrder(schedule.inForceOn(milking.day).data).map(({ name }) => name);
  const whats = Object.entries(WHATS).filter(([what]) => what === 'note' || view.may(what as Exclude<What, 'note'>));
  const options = [['', 'nothing'] as const, ...whats];
  return (
    <>
      <h3>Written by hand since printing</h3>
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
          More lines
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
  const of = `Line ${index + 1}`;
  const quarters = QUARTERS.filter((quarter) => BOXES.includes(quarter)).map(
    (quarter) => [quarter, quarter.replace('-', ' ')] as const,
  );
  return (
    <li class="on-paper by-hand" id={`line-${field}`}>
      <Trouble view={view} field={field} />
      <div class="beside">
        <Small view={view} field={`${field}.cow`} label="cow" of={of} longest={20} />
        <Choice view={view} field={`${field}.what`} label="what" of={of} options={options} />
        <Small
          view={view}
          field={`${field}.words`}
          label="which medicine, which group, or why"
          of={of}
          longest={150}
          list="words"
        />
        <Small view={view} field={`${field}.by`} label="initials" of={of} longest={40} />
        <OwnTime view={view} field={field} of={of} />
        <details
          open={['amount', 'unit', 'quarter', 'doses', 'hours'].some((name) => view.form.one(`${field}.${name}`))}
        >
          <summary>
            more of a dose<span class="unseen"> on {of.toLowerCase()}</span>
          </summary>
          <div class="beside">
            <Small view={view} field={`${field}.amount`} label="amount" of={of} longest={10} />
            <Small view={view} field={`${field}.unit`} label="unit" of={of} longest={20} />
            <Choice
              view={view}
              field={`${field}.quarter`}
              label="quarter"
              of={of}
              options={[['', 'not said'], ...quarters]}
            />
            <Small view={view} field={`${field}.doses`} label="doses in all" of={of} longest={3} digits />
            <Small view={view} field={`${field}.hours`} label="hours apart" of={of} longest={5} digits />
          </div>
        </details>
      </div>
    </li>
  );
};
