/**
 * What a schema surely accepts, told fast. A kind's own Zod schema is taken apart once into plain functions that run the
 * very same checks, remember texts that passed before, and give exactly what the schema would give. Whatever they are
 * not sure of (anything odd, anything refused) is for the schema itself to judge and to put into words.
 */
import type { z } from 'zod';

export const UNSURE = Symbol('unsure');

/** The value as the schema gives it, fields in the schema's order; `UNSURE` where only the schema can tell. */
export type Sure = (value: unknown) => unknown;

const made = new WeakMap<z.core.$ZodType, Sure>();

export const sureOf = (schema: z.core.$ZodType): Sure => {
  const have = made.get(schema);
  if (have !== undefined) return have;
  const sure = make(schema);
  made.set(schema, sure);
  return sure;
};

const never: Sure = () => UNSURE;

const make = (schema: z.core.$ZodType): Sure => {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  switch (def.type) {
    case 'string':
      return def.coerce === true ? never : remembering(passing('string', def.checks));
    case 'number':
      return def.coerce === true ? never : passing('number', def.checks);
    case 'boolean':
      return def.coerce === true ? never : passing('boolean', def.checks);
    case 'literal':
      return oneOf(new Set<unknown>(def.values), def.checks);
    case 'enum':
      return oneOf(new Set<unknown>(Object.values(def.entries)), def.checks);
    case 'optional':
      // A field that is not there is the object's affair.
      return def.checks === undefined ? sureOf(def.innerType) : never;
    case 'array':
      return listOf(sureOf(def.element), def.checks);
    case 'object':
      return fieldsOf(def);
    case 'union':
      return eitherOf(def.options, def.checks);
    default:
      return never;
  }
};

type Checks = readonly z.core.$ZodCheck[] | undefined;

/** True when every check passes and leaves the value as it is. */
const pass = (value: unknown, checks: Checks): boolean => {
  if (checks === undefined) return true;
  const payload: z.core.ParsePayload = { value, issues: [] };
  for (const check of checks as readonly z.core.$ZodCheck<unknown>[]) {
    if (check._zod.check(payload) instanceof Promise) return false;
    if (payload.issues.length > 0 || payload.value !== value) return false;
  }
  return true;
};

const passing =
  (type: 'string' | 'number' | 'boolean', checks: Checks): Sure =>
  (value) =>
    typeof value === type && (type !== 'number' || Number.isFinite(value)) && pass(value, checks) ? value : UNSURE;

const oneOf =
  (values: ReadonlySet<unknown>, checks: Checks): Sure =>
  (value) =>
    values.has(value) && pass(value, checks) ? value : UNSURE;

const REMEMBERED = 2_000;

/**
 * Names, groups and medicines come again and again: a text that passed passes, and takes its room only once. Where texts
 * seldom come again, as ids, remembering costs more than it saves and ends.
 */
const remembering = (sure: Sure): Sure => {
  let now = new Map<string, string>();
  let before = now;
  let again = 0;
  let isWorthIt = true;
  return (value) => {
    if (!isWorthIt || typeof value !== 'string') return sure(value);
    const known = now.get(value) ?? before.get(value);
    if (known !== undefined) {
      again += 1;
      return known;
    }
    if (sure(value) === UNSURE) return UNSURE;
    if (now.size >= REMEMBERED) {
      isWorthIt = again > REMEMBERED;
      before = isWorthIt ? now : new Map();
      now = new Map();
      again = 0;
    }
    now.set(value, value);
    return value;
  };
};

const listOf =
  (element: Sure, checks: Checks): Sure =>
  (value) => {
    if (!Array.isArray(value)) return UNSURE;
    // As long as it is from the start: one that grows keeps room for more.
    const list: unknown[] = value.slice();
    for (let place = 0; place < list.length; place += 1) {
      const one = element(list[place]);
      if (one === UNSURE) return UNSURE;
      list[place] = one;
    }
    return pass(list, checks) ? list : UNSURE;
  };

const fieldsOf = (def: z.core.$ZodObjectDef): Sure => {
  // Only an object that refuses what it does not know gives no more than its shape.
  if (def.catchall?._zod.def.type !== 'never') return never;
  const fields = Object.entries(def.shape).map(([name, schema]) => ({
    name,
    sure: sureOf(schema),
    needed: schema._zod.def.type !== 'optional',
  }));
  // What every object has of itself could be taken for a field.
  if (fields.some(({ name }) => name in {})) return never;
  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return UNSURE;
    const given = value as Readonly<Record<string, unknown>>;
    const object: Record<string, unknown> = {};
    let left = 0;
    for (const _ in given) left += 1;
    for (const { name, sure, needed } of fields) {
      const field = given[name];
      if (field === undefined) {
        if (needed) return UNSURE;
        continue;
      }
      const one = sure(field);
      if (one === UNSURE) return UNSURE;
      object[name] = one;
      left -= 1;
    }
    return left === 0 && pass(object, def.checks) ? object : UNSURE;
  };
};

/** The first option that accepts decides: with objects or lists among several such, only the schema can tell which. */
const eitherOf = (options: readonly z.core.$ZodType[], checks: Checks): Sure => {
  const all = options.map((option) => ({ sure: sureOf(option), made: MADE.has(option._zod.def.type) }));
  const ofMany = all.filter(({ made }) => made).length > 1;
  return (value) => {
    const isMade = typeof value === 'object' && value !== null;
    if (isMade && ofMany) return UNSURE;
    for (const { sure, made } of all) {
      if (made !== isMade) continue;
      const one = sure(value);
      if (one !== UNSURE) return pass(one, checks) ? one : UNSURE;
    }
    return UNSURE;
  };
};

const MADE = new Set(['object', 'array', 'union', 'record', 'lazy', 'intersection', 'pipe', 'tuple', 'any', 'unknown']);
