/** The boxes of a dry-off line: four quarters as the udder stands, sealant, band; and the product with the group she goes to. */
import { say } from '../say.tsx';
import { BOXES, dryCowProducts, dryGroups, sealants } from './dry-off-line.ts';
import type { DryLine } from './on-paper.ts';
import { Choice } from './parts.tsx';
import { quarterName } from './quarter-names.ts';
import { standing, type View } from './view.ts';

export const DryOffBoxes = ({ view, line }: { view: View; line: DryLine }) => {
  const { book, form } = view;
  const { known } = book.knowledge;
  const { field, cow } = line;
  const typed = standing(view, `${field}.product`, line.product ?? undefined);
  const products = [...new Set([...(typed === '' || typed === 'none' ? [] : [typed]), ...dryCowProducts(known)])];
  const groups = dryGroups(book.span);
  const listed = sealants(known);
  const ticks = form.all(`${field}.quarters`);
  return (
    <>
      <fieldset class="quarters">
        <legend>
          <span class="unseen">{cow}: </span>
          {say('quarters')}
        </legend>
        {BOXES.map((quarter) => (
          <label>
            <input type="checkbox" name={`${field}.quarters`} value={quarter} checked={ticks.includes(quarter)} />
            {quarterName(quarter)}
          </label>
        ))}
      </fieldset>
      <Box view={view} field={`${field}.sealant-given`} words={say('sealant')} of={cow} />
      {listed.length === 0 ? null : (
        <Choice
          view={view}
          field={`${field}.sealant`}
          label={say('which sealant')}
          of={cow}
          printed={listed[0]}
          options={listed.map((name) => [name, name])}
        />
      )}
      <Box view={view} field={`${field}.band`} words={say('band on')} of={cow} />
      <Choice
        view={view}
        field={`${field}.product`}
        label={say('product')}
        of={cow}
        printed={line.product ?? undefined}
        options={[
          ['', say('not said ¦ on the sheet')],
          ['none', say('none was given')],
          ...products.map((name) => [name, name] as const),
        ]}
      />
      <Choice
        view={view}
        field={`${field}.group`}
        label={say('goes to')}
        of={cow}
        printed={groups[0]}
        options={[['', say('not said ¦ on the sheet')], ...groups.map((name) => [name, name] as const)]}
      />
    </>
  );
};

const Box = ({ view, field, words, of }: { view: View; field: string; words: string; of: string }) => (
  <label class="box">
    <input type="checkbox" name={field} value="yes" checked={view.form.one(field) !== undefined} />
    <span>
      <span class="unseen">{of}: </span>
      {words}
    </span>
  </label>
);
