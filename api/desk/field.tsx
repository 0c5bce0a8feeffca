/** One control with its label, and what is wrong with what was typed beside it. */
import type { Child } from 'hono/jsx';

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

export const Field = ({ id, name, label, type = 'text', value = '', hint, problem, ...more }: FieldProps) => {
  const told = [...(hint === undefined ? [] : [`${id}-hint`]), ...(problem === undefined ? [] : [`${id}-problem`])];
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        name={name}
        type={type}
        value={value}
        aria-invalid={problem === undefined ? undefined : 'true'}
        aria-describedby={told.length === 0 ? undefined : told.join(' ')}
        {...more}
      />
      {hint === undefined ? null : (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {problem === undefined ? null : (
        <span class="problem" id={`${id}-problem`}>
          {problem}
        </span>
      )}
    </div>
  );
};
