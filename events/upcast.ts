/**
 * Reading entries written by older versions. The meaning of a stored entry never changes; where a kind's shape
 * grows, a step here turns the old shape into the new one on the way out of the log, and the old example stays
 * in `tests/events/` as a fixture for ever.
 */
export interface UpcastStep {
  readonly type: string;
  /** True for data in the old shape. */
  readonly applies: (data: Readonly<Record<string, unknown>>) => boolean;
  readonly upcast: (data: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/** In order of age. Format 1 is the first; it has none. */
export const UPCAST_STEPS: readonly UpcastStep[] = [];

export const upcast = (type: string, data: unknown, steps: readonly UpcastStep[] = UPCAST_STEPS): unknown => {
  if (steps.length === 0 || typeof data !== 'object' || data === null || Array.isArray(data)) return data;
  return steps
    .filter((step) => step.type === type)
    .reduce((sofar, step) => (step.applies(sofar) ? step.upcast(sofar) : sofar), data as Record<string, unknown>);
};
