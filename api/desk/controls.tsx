/**
 * The controls of the longer forms: each with its label, its hint and, where something is wrong, the sentence beside it.
 * What was typed stays as it was typed.
 */
import type { Child } from 'hono/jsx';
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

const describedBy = ({ name, given, hint }: Control): string | undefined => {
  const ids = [
    ...(given.problems.has(name) ? [`${idOfField(name)}-problem`] : []),
    ...(hint === undefined ? [] : [`${idOfField(name)}-hint`]),
  ];
  return ids.length === 0 ? undefined : ids.join(' ');
};

const About = ({ name, given, hint }: Control) => (
  <>
    {given.problems.has(name) ? (
      <span class="problem" id={`${idOfField(name)}-problem`}>
        {given.problems.get(name)}
      </span>
    ) : null}
    {hint === undefined ? null : (
      <span class="hint" id={`${idOfField(name)}-hint`}>
        {hint}
      </span>
    )}
  </>
);

const wrongOf = ({ name, given }: Control): 'true' | undefined => (given.problems.has(name) ? 'true' : undefined);

interface InputControl extends Control {
  readonly type?: 'text' | 'date' | 'time' | 'datetime-local';
  /** Digits are typed as text: what is no number comes back with a sentence instead of vanishing. */
  readonly figures?: boolean;
  readonly list?: string;
  readonly required?: boolean;
}

export const Input = (control: InputControl) => {
  const { label, name, given, type = 'text', figures = false, list, required = false } = control;
  return (
    <p class="field">
      <label for={idOfField(name)}>{label}</label>
      <input
        id={idOfField(name)}
        name={name}
        type={type}
        value={given.typed.one(name) ?? ''}
        inputmode={figures ? 'decimal' : undefined}
        list={list}
        aria-required={required ? 'true' : undefined}
        aria-invalid={wrongOf(control)}
        aria-describedby={describedBy(control)}
        autocomplete="off"
      />
      <About {...control} />
    </p>
  );
};

export type Option = readonly [value: string, says: string];

export const Choice = (control: Control & { readonly options: readonly Option[]; readonly required?: boolean }) => {
  const { label, name, given, options, required = false } = control;
  const chosen = given.typed.one(name) ?? '';
  const strange = chosen !== '' && !options.some(([value]) => value === chosen);
  return (
    <p class="field">
      <label for={idOfField(name)}>{label}</label>
      <select
        id={idOfField(name)}
        name={name}
        aria-required={required ? 'true' : undefined}
        aria-invalid={wrongOf(control)}
        aria-describedby={describedBy(control)}
      >
        {(strange ? [...options, [chosen, chosen] as const] : options).map(([value, says]) => (
          <option value={value} selected={value === chosen}>
            {says}
          </option>
        ))}
      </select>
      <About {...control} />
    </p>
  );
};

/** One line of text each. */
export const Lines = (control: Control & { readonly rows?: number }) => {
  const { label, name, given, rows = 4 } = control;
  return (
    <p class="field">
      <label for={idOfField(name)}>{label}</label>
      <textarea
        id={idOfField(name)}
        name={name}
        rows={rows}
        aria-invalid={wrongOf(control)}
        aria-describedby={describedBy(control)}
      >
        {/* A browser drops the first line end after the tag. */}
        {`\n${given.typed.one(name) ?? ''}`}
      </textarea>
      <About {...control} />
    </p>
  );
};

export const Tick = (control: Control) => {
  const { label, name, given } = control;
  return (
    <p class="field">
      <label class="choice">
        <input
          id={idOfField(name)}
          type="checkbox"
          name={name}
          value="yes"
          checked={given.typed.one(name) !== undefined}
          aria-describedby={describedBy(control)}
        />
        {label}
      </label>
      <About {...control} />
    </p>
  );
};

/** Several that may all be ticked, or of which one is chosen. */
export const Ticks = (control: Control & { readonly options: readonly Option[]; readonly oneOnly?: boolean }) => {
  const { label, name, given, options, oneOnly = false } = control;
  const ticked = given.typed.all(name);
  return (
    <fieldset id={idOfField(name)} tabindex={-1} aria-describedby={describedBy(control)}>
      <legend>{label}</legend>
      {options.map(([value, says]) => (
        <label class="choice">
          <input type={oneOnly ? 'radio' : 'checkbox'} name={name} value={value} checked={ticked.includes(value)} />
          {says}
        </label>
      ))}
      <About {...control} />
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
