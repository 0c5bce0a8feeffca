/** One line to type into. */
import type { Child } from 'hono/jsx';
import { describedBy, Labelled } from './labelled.tsx';

interface FieldProps {
  readonly id: string;
  readonly name: string;
  readonly label: string;
  readonly type?: string;
  readonly value?: string | undefined;
  readonly hint?: string;
  readonly problem?: Child;
  readonly required?: boolean;
  readonly maxlength?: number;
  readonly inputmode?: 'decimal' | 'numeric';
}

export const Field = ({ id, name, label, type = 'text', value = '', hint, problem, ...more }: FieldProps) => (
  <Labelled id={id} label={label} hint={hint} problem={problem}>
    <input id={id} name={name} type={type} value={value} {...describedBy({ id, hint, problem })} {...more} />
  </Labelled>
);
