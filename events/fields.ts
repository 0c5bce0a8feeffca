/** The building blocks of entry schemas: text, names, instants, dates, quantities. Each refusal says what to write. */
import { z } from 'zod';
import { isBarnNumber, officialDigits } from '../shared/cow-number.ts';
import { parseInstant } from '../shared/instant.ts';
import { parseLocalDay } from '../shared/local-day.ts';
import { parseMilkingId } from '../shared/milking-id.ts';
import type { Result } from '../shared/refusal.ts';
import { parseZone } from '../shared/zone.ts';

const UNPRINTABLE = /[\p{Cc}\p{Zl}\p{Zp}\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/u;
const LONE_SURROGATE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;

const ALL_UNPRINTABLE = new RegExp(UNPRINTABLE.source, 'gu');
const ALL_LONE = new RegExp(LONE_SURROGATE.source, 'g');

/** A text in one line without what `text` refuses: what no paper shows becomes a space, half a letter a replacement character. */
export const printable = (value: string): string =>
  value.replace(ALL_LONE, '\ufffd').replace(ALL_UNPRINTABLE, ' ').trim();

/** A schema from one of the house's parsers, keeping the text as written. */
const parsedBy = (parse: (text: string) => Result<unknown>) =>
  z.string().superRefine((text, context) => {
    const result = parse(text);
    if (!result.ok) context.addIssue({ code: 'custom', message: result.problem });
  });

/** Free text in one line, without control or bidirectional characters. */
export const text = (longest = 500) =>
  z
    .string()
    .min(1, 'must not be empty')
    .max(longest, `is longer than ${longest} characters; say it shorter`)
    .refine((value) => value.trim().length > 0, 'must not be blank')
    .refine((value) => !UNPRINTABLE.test(value), 'has control or text-direction characters; type it again without them')
    .refine((value) => !LONE_SURROGATE.test(value), 'has a broken character; type it again');

export const name = text(80);
export const entryId = text(100);
export const instant = parsedBy(parseInstant);
export const date = parsedBy(parseLocalDay);
export const milking = parsedBy(parseMilkingId);
export const timeZone = parsedBy(parseZone);

export const wallTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a time of day such as 04:30, from 00:00 to 23:59');

export const barnNumber = z
  .string()
  .refine(isBarnNumber, 'must be a barn number: 1 to 10 letters, digits or hyphens, as text');

export const officialNumber = z
  .string()
  .refine((value) => officialDigits(value) !== undefined, 'must be an official number of 15 digits, as text');

export const hours = z.number().min(0, 'must not be negative').max(87_600, 'is more than ten years');
export const someHours = z
  .number()
  .gt(0, 'must be more than 0 (no hold is written "none")')
  .max(87_600, 'is more than ten years');
export const someMilkings = z
  .number()
  .int('must be a whole number of milkings')
  .min(1, 'must be at least 1 (no hold is written "none")')
  .max(2_000, 'is more than two years of milkings');
export const days = z.number().min(0, 'must not be negative').max(3_650, 'is more than ten years');
export const wholeDays = days.int('must be a whole number of days');

export const quantity = z.strictObject({ value: z.number().min(0, 'must not be negative'), unit: text(20) });

/** A hold in hours, in milkings, or in both (then the later governs, R-12). Never empty. */
export const hold = z
  .strictObject({ hours: someHours.optional(), milkings: someMilkings.optional() })
  .refine(
    (value) => value.hours !== undefined || value.milkings !== undefined,
    'is empty; give hours, milkings or both, or write "none" or "unknown"',
  );

/** A running hold at entry: an instant, `"none"`, or `"unknown"`. */
export const runningHold = z.union([z.literal('none'), z.literal('unknown'), instant], {
  error: 'must be a time with its zone, "none" or "unknown"',
});

export const QUARTERS = ['left-front', 'right-front', 'left-hind', 'right-hind', 'left-rear', 'right-rear'] as const;
/** `rear` and `hind` are the same quarter in two countries' English; both are accepted. */
export const quarters = z.array(z.enum(QUARTERS)).max(4, 'names more than four quarters');
