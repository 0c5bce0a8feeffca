/** The fields of a form for an entry: what each is called, how it is drawn, and what was typed read back. */
import type { Child } from 'hono/jsx';
import type { Form } from '../ask.ts';
import { describedBy, Labelled, Notes } from '../labelled.tsx';
import { say } from '../say.tsx';

interface Named {
  /** Name in the form, and the field of `data` that a trouble about it points to. */
  readonly name: string;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly required?: true | undefined;
}

export type Choice = readonly [value: string, label: string];

export type Field =
  | (Named & { readonly kind: 'text'; readonly longest: number; readonly suggestions?: readonly string[] })
  | (Named & { readonly kind: 'number'; readonly whole?: true })
  | (Named & { readonly kind: 'date' })
  | (Named & { readonly kind: 'choice'; readonly choices: readonly Choice[] })
  | (Named & { readonly kind: 'ticks'; readonly choices: readonly Choice[] });

/** What stands in the fields: each as typed. */
export interface Typed {
  readonly one: (name: string) => string | undefined;
  readonly all: (name: string) => readonly string[];
}

export const typedIn = (form: Form): Typed => form;

/** From a link: `/write/treatment?cow=412&medicine=…`. */
export const typedInQuery = ({ searchParams }: URL): Typed => ({
  one: (name) => searchParams.get(name)?.trim() || undefined,
  all: (name) =>
    searchParams
      .getAll(name)
      .map((each) => each.trim())
      .filter(Boolean),
});

/** What was typed, and where nothing stands in a field, what is usual. */
export const withUsual = (typed: Typed, usual: Readonly<Record<string, string>>): Typed => ({
  one: (name) => typed.one(name) ?? usual[name],
  all: typed.all,
});

/** A number as people type it; a comma is a point. NaN where it is none, so that the door says so in its own words. */
export const numberIn = (text: string | undefined): number | undefined =>
  text === undefined ? undefined : Number(text.replace(',', '.').replace(/\s/g, ''));

export const Fields = ({
  fields,
  typed,
  troubles,
}: {
  fields: readonly Field[];
  typed: Typed;
  /** By the name of the field. */
  troubles: ReadonlyMap<string, Child>;
}) => (
  <div class="fields">
    {fields.map((field) => (
      <OneField field={field} typed={typed} trouble={troubles.get(field.name)} />
    ))}
  </div>
);

const OneField = ({ field, typed, trouble }: { field: Field; typed: Typed; trouble: Child | undefined }) => {
  const { name, label, hint, required } = field;
  const labels = { id: `field-${name}`, hint, problem: trouble };
  if (field.kind === 'ticks') {
    const chosen = new Set(typed.all(name));
    return (
      <fieldset>
        <legend>{label}</legend>
        {field.choices.map(([value, text]) => (
          <label class="choice">
            <input type="checkbox" name={name} value={value} checked={chosen.has(value)} />
            {text}
          </label>
        ))}
        <Notes {...labels} />
      </fieldset>
    );
  }
  const about = { id: labels.id, name, required, ...describedBy(labels) };
  return (
    <Labelled
      {...labels}
      label={
        <>
          {label}
          {required === true ? null : <span class="hint inline-hint"> {say('if known')}</span>}
        </>
      }
    >
      {field.kind === 'choice' ? (
        <select {...about}>
          {required === true && field.choices.some(([value]) => value === typed.one(name)) ? null : (
            <option value="">{say(required === true ? 'choose' : 'not said')}</option>
          )}
          {field.choices.map(([value, text]) => (
            <option value={value} selected={value === typed.one(name)}>
              {text}
            </option>
          ))}
        </select>
      ) : (
        <input
          {...about}
          value={typed.one(name) ?? ''}
          type={field.kind === 'date' ? 'date' : 'text'}
          {...(field.kind === 'number' ? { inputmode: field.whole === true ? 'numeric' : 'decimal' } : {})}
          {...(field.kind === 'text' ? { maxlength: field.longest } : {})}
          {...(field.kind === 'text' && field.suggestions !== undefined ? { list: `${labels.id}-list` } : {})}
        />
      )}
      {field.kind === 'text' && field.suggestions !== undefined ? (
        <datalist id={`${labels.id}-list`}>
          {field.suggestions.map((each) => (
            <option value={each} />
          ))}
        </datalist>
      ) : null}
    </Labelled>
  );
};
