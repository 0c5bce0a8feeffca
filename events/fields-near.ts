/** Which fields a schema knows at a place, and which of them a misspelt name is near to. */
import { distance } from 'fastest-levenshtein';
import { z } from 'zod';

/** The schema of what stands at a path; where several are possible, all of them. */
export const schemaAt = (schema: z.core.$ZodType, path: readonly PropertyKey[]): z.core.$ZodType => {
  const [part, ...rest] = path;
  if (part === undefined) return schema;
  const within = plain(schema).flatMap((each) => partOf(each, part));
  const [only, ...others] = within;
  if (only === undefined) return z.never();
  return schemaAt(others.length === 0 ? only : z.union(within), rest);
};

export const fieldsAt = (schema: z.core.$ZodType, path: readonly PropertyKey[]): readonly string[] => [
  ...new Set(
    plain(schemaAt(schema, path)).flatMap((each) => (each instanceof z.ZodObject ? Object.keys(each.shape) : [])),
  ),
];

/** The one that a person may have meant. Of short names, only one letter may be otherwise. */
export const nearest = (written: string, fields: readonly string[]): string | undefined => {
  const [best] = fields
    .map((field) => ({ field, away: distance(field.toLowerCase(), written.toLowerCase()) }))
    .sort((a, b) => a.away - b.away);
  if (best === undefined) return undefined;
  const most = written.length < 4 ? 1 : Math.max(2, written.length / 3);
  return best.away <= most ? best.field : undefined;
};

/** Without what says that it may be left out, and with each choice by itself. */
const plain = (schema: z.core.$ZodType): z.core.$ZodType[] => {
  if (schema instanceof z.ZodOptional) return plain(schema.unwrap());
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((each) => plain(each));
  return [schema];
};

const partOf = (schema: z.core.$ZodType, part: PropertyKey): z.core.$ZodType[] => {
  if (schema instanceof z.ZodArray) return [schema.element];
  if (!(schema instanceof z.ZodObject) || typeof part !== 'string') return [];
  const field: z.core.$ZodType | undefined = schema.shape[part];
  return field === undefined ? [] : [field];
};
