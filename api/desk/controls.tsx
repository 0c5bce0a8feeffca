/**
 * The controls of the longer forms: each with its label, its hint and, where something is wrong, the sentence beside it.
 * What was typed stays as it was typed.
 */
import type { Child } from 'hono/jsx';
import { describedBy, Labelled, type Labels, Notes } from './labelled.tsx';
import { say } from './say.tsx';

/** What stands in a form: from the book when it is opened, from the person when it comes back. */
export interface Typed {
  readonly one: (name: string) => string | undefined;
  readonly all: (name: string) => readonly string[];
  readonly names: () => readonly string[];
}

/** Sentences by the field they stand beside: the desk's own, or the door's in English and marked so. */
export type Problems = ReadonlyMap<string, Child>;

export const NO_PROBLEMS: Problems = new Map();

export interface Given {
  readonly typed: Typed;
  readonly problems: Problems;
}

export const typedOf = (fields: ReadonlyMap<string, readonly string[]>): Typed => ({
  one: (name) => fields.get(name)?.[0],
  all: (name) => fields.get(name) ?? [],
  names: () => [...fields.keys()],
});

interface Control {
  readonly label: string;
  readonly name: string;
  readonly given: Given;
  readonly hint?: string | undefined;
}

const idOfField = (name: string): string => `f-${name}`;

const labelsOf = ({ name, given, hint }: Control): Labels => ({
  id: idOfField(name),
  hint,
  problem: given.problems.get(name),
});

interface InputControl extends Control {
  readonly type?: 'text' | 'date' | 'time' | 'datetime-local';
  /** Digits are typed as text: what is no number comes back with a sentence instead of vanishing. */
  readonly figures?: boolean;
  readonly list?: string;
  readonly required?: boolean;
}

export const Input = (control: InputControl) => {
  const { label, name, given, type = 'text', figures = false, list, required = false } = control;
  const labels = labelsOf(control);
  return (
    <Labelled label={label} {...labels}>
      <input
        id={labels.id}
        name={name}
        type={type}
        value={given.typed.one(name) ?? ''}
        inputmode={figures ? 'decimal' : undefined}
        list={list}
        aria-required={required ? 'true' : undefined}
        {...describedBy(labels)}
        autocomplete="off"
      />
    </Labelled>
  );
};

export type Option = readonly [value: string, says: string];

export const Choice = (control: Control & { readonly options: readonly Option[]; readonly required?: boolean }) => {
  const { label, name, given, options, required = false } = control;
  const labels = labelsOf(control);
  const chosen = given.typed.one(name) ?? '';
  const strange = chosen !== '' && !options.some(([value]) => value === chosen);
  return (
    <Labelled label={label} {...labels}>
      <select id={labels.id} name={name} aria-required={required ? 'true' : undefined} {...describedBy(labels)}>
        {(strange ? [...options, [chosen, chosen] as const] : options).map(([value, says]) => (
          <option value={value} selected={value === chosen}>
            {says}
          </option>
        ))}
      </select>
    </Labelled>
  );
};

/** One line of text each. */
export const Lines = (control: Control & { readonly rows?: number }) => {
  const { label, name, given, rows = 4 } = control;
  const labels = labelsOf(control);
  return (
    <Labelled label={label} {...labels}>
      <textarea id={labels.id} name={name} rows={rows} {...describedBy(labels)}>
        {/* A browser drops the first line end after the tag. */}
        {`\n${given.typed.one(name) ?? ''}`}
      </textarea>
    </Labelled>
  );
};

export const Tick = (control: Control) => {
  const { label, name, given } = control;
  const labels = labelsOf(control);
  return (
    <div class="field">
      <label class="choice">
        <input
          id={labels.id}
          type="checkbox"
          name={name}
          value="yes"
          checked={given.typed.one(name) !== undefined}
          {...describedBy(labels)}
        />
        {label}
      </label>
      <Notes {...labels} />
    </div>
  );
};

/** Several that may all be ticked, or of which one is chosen. */
export const Ticks = (control: Control & { readonly options: readonly Option[]; readonly oneOnly?: boolean }) => {
  const { label, name, given, options, oneOnly = false } = control;
  const ticked = given.typed.all(name);
  const labels = labelsOf(control);
  return (
    <fieldset id={labels.id} tabindex={-1} aria-describedby={describedBy(labels)['aria-describedby']}>
      <legend>{label}</legend>
      {options.map(([value, says]) => (
        <label class="choice">
          <input type={oneOnly ? 'radio' : 'checkbox'} name={name} value={value} checked={ticked.includes(value)} />
          {says}
        </label>
      ))}
      <Notes {...labels} />
    </fieldset>
  );
};

/** Above a form with something wrong in it: how much, and each with the way to its field. */
export const Wrong = ({ problems, nothing }: { problems: Problems; nothing?: string }) =>
  problems.size === 0 ? null : (
    <div class="problem" role="alert">
      <p>
        {nothing ?? say('Nothing was saved.')}{' '}
        {say('{things, plural, one {One thing is} other {# things are}} to be mended:', { things: problems.size })}
      </p>
      <ul>
        {[...problems].map(([name, sentence]) => (
          <li>{name === '' ? sentence : <a href={`#${idOfField(name)}`}>{sentence}</a>}</li>
        ))}
      </ul>
    </div>
  );

/** What was typed, carried along unseen to the page on which it is saved. */
export const Carried = ({ typed, without = [] }: { typed: Typed; without?: readonly string[] }) => (
  <>
    {typed
      .names()
      .filter((name) => name !== 'once' && name !== 'step' && !without.includes(name))
      .flatMap((name) => typed.all(name).map((value) => <input type="hidden" name={name} value={value} />))}
  </>
);

export const Card = ({ title, children, id }: { title: string; children?: Child; id?: string }) => (
  <section class="card" id={id} aria-label={title}>
    <h2>{title}</h2>
    {children}
  </section>
);
