/** The pieces that the lines of a written-up sheet are made of: a tick with its words, a small field, a time of its own, a trouble. */
import type { Child } from 'hono/jsx';
import { say, sayWith } from '../say.tsx';
import type { Stands } from './already.ts';
import { standing, type View, wrongAt } from './view.ts';

export const Trouble = ({ view, field }: { view: View; field: string }) => {
  const trouble = view.troubles.get(field);
  return trouble === undefined ? null : (
    <p class="problem" id={`${field}-wrong`}>
      {trouble}
    </p>
  );
};

interface LineProps {
  readonly view: View;
  readonly field: string;
  readonly cow: string;
  /** What a tick says: "given", "moved". */
  readonly did: string;
  readonly words: Child;
  readonly stands: Stands;
  /** This device may write it. */
  readonly may: boolean;
  readonly children?: Child;
}

/** One line of the paper: her number, what stands beside it, a box to tick; or why there is none. */
export const Line = ({ view, field, cow, did, words, stands, may, children }: LineProps) => (
  <li class="on-paper" id={`line-${field}`}>
    {stands.shut !== undefined || !may ? (
      <p class="tick">
        <span class="cow">{cow}</span> <span>{words}</span>
      </p>
    ) : (
      <label class="tick">
        <input
          type="checkbox"
          name={field}
          value="yes"
          checked={view.form.one(field) !== undefined}
          {...wrongAt(view, field)}
        />
        <span class="cow">{cow}</span>{' '}
        <span>
          <b>{did}</b>: {words}
        </span>
      </label>
    )}
    {stands.shut === undefined ? null : <p class="shut">{stands.shut}</p>}
    {stands.remarks.map((remark) => (
      <p class="remark">! {remark}</p>
    ))}
    <Trouble view={view} field={field} />
    {stands.shut !== undefined || !may ? null : <div class="beside">{children}</div>}
  </li>
);

interface FieldProps {
  readonly view: View;
  readonly field: string;
  readonly label: string;
  /** Of which line, for whoever hears the page and does not see it. */
  readonly of: string;
  readonly longest?: number;
  readonly type?: string;
  readonly list?: string;
  readonly digits?: boolean;
}

export const Small = ({ view, field, label, of, longest = 80, type = 'text', list, digits = false }: FieldProps) => (
  <label class="small">
    <span>
      <span class="unseen">{of}: </span>
      {label}
    </span>
    <input
      type={type}
      name={field}
      value={standing(view, field)}
      maxlength={type === 'text' ? longest : undefined}
      list={list}
      inputmode={digits ? 'numeric' : undefined}
      autocomplete="off"
      {...wrongAt(view, field)}
    />
  </label>
);

/** Closed until somebody wants it: nearly every line was at this milking. */
export const OwnTime = ({ view, field, of, children }: { view: View; field: string; of: string; children?: Child }) => (
  <details open={view.form.one(`${field}.time`) !== undefined}>
    <summary>
      {sayWith('another time<unseen> for {of}</unseen>', {
        of,
        unseen: (inner) => <span class="unseen">{inner}</span>,
      })}
    </summary>
    <Small view={view} field={`${field}.time`} label={say('day and time')} of={of} type="datetime-local" />
    {children}
  </details>
);

interface ChoiceProps {
  readonly view: View;
  readonly field: string;
  readonly label: string;
  readonly of: string;
  readonly printed?: string | undefined;
  /** Value and words. */
  readonly options: readonly (readonly [string, string])[];
}

export const Choice = ({ view, field, label, of, printed, options }: ChoiceProps) => {
  const chosen = standing(view, field, printed);
  return (
    <label class="small">
      <span>
        <span class="unseen">{of}: </span>
        {label}
      </span>
      <select name={field} {...wrongAt(view, field)}>
        {options.map(([value, words]) => (
          <option value={value} selected={value === chosen}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
};
