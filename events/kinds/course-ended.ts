/** The only thing that shortens a plan. */
import { z } from 'zod';
import { entryId, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ course: entryId, reason: text(200) });

export type CourseEnded = z.infer<typeof schema>;

export const courseEnded = kind({
  type: 'course-ended',
  when: 'Recorded when a course is stopped before its last planned dose.',
  subject: 'cow',
  schema,
  example: { course: 'course-412-1', reason: 'vet changed the medicine' },
});
