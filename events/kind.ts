/**
 * What one entry kind is made of: one file per kind in `kinds/` holds its schema, type, one valid example and
 * one sentence on when it is recorded. `kinds.ts` is the register of them all.
 */
import type { z } from 'zod';

/** Whose entry it is: a cow's (`subject` required), the farm's (no `subject`), or either. */
export type SubjectRule = 'cow' | 'farm' | 'either';

export interface Kind<Type extends string, Schema extends z.ZodType> {
  readonly type: Type;
  /** One sentence: when this is recorded. */
  readonly when: string;
  readonly subject: SubjectRule;
  /** Strict: an unknown field is refused, never dropped. */
  readonly schema: Schema;
  readonly example: z.infer<Schema>;
  /** True for what the book alone writes; people and devices cannot. */
  readonly bookOnly?: true;
}

export const kind = <Type extends string, Schema extends z.ZodType>(
  definition: Kind<Type, Schema>,
): Kind<Type, Schema> => definition;
