/** What every form has around a control: its label above, and under it what is wrong with what was typed, and a hint. */
import type { Child } from 'hono/jsx';

export interface Labels {
  /** Of the control; what stands under it is found by it too. */
  readonly id: string;
  readonly hint?: Child;
  readonly problem?: Child;
}

/** What the control says of itself to whoever does not see what stands under it. */
export const describedBy = ({ id, hint, problem }: Labels) => {
  const notes = [...(problem === undefined ? [] : [`${id}-problem`]), ...(hint === undefined ? [] : [`${id}-hint`])];
  return {
    'aria-invalid': problem === undefined ? undefined : ('true' as const),
    'aria-describedby': notes.length === 0 ? undefined : notes.join(' '),
  };
};

export const Notes = ({ id, hint, problem }: Labels) => (
  <>
    {problem === undefined ? null : (
      <span class="problem" id={`${id}-problem`}>
        {problem}
      </span>
    )}
    {hint === undefined ? null : (
      <span class="hint" id={`${id}-hint`}>
        {hint}
      </span>
    )}
  </>
);

export const Labelled = ({
  label,
  children,
  ...labels
}: Labels & { readonly label: Child; readonly children?: Child }) => (
  <div class="field">
    <label for={labels.id}>{label}</label>
    {children}
    <Notes {...labels} />
  </div>
);
