/**
 * The schemas of the ICAR Animal Data Exchange JSON standard, each `allOf` and `$ref` worked into one closed schema: a key that
 * the standard doesn't name is an error at every depth, which the published schemas by themselves let pass.
 */
import fs from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';

type Schema = Readonly<Record<string, unknown>>;

const isSchema = (value: unknown): value is Schema =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const read = (file: string): Schema => {
  const value: unknown = JSON.parse(fs.readFileSync(file, 'utf8'));
  if (!isSchema(value)) throw new Error(`${file} is not a schema`);
  return value;
};

const listed = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

const merged = (parts: readonly Schema[]): Schema => ({
  ...Object.fromEntries(parts.flatMap((part) => Object.entries(part))),
  properties: Object.fromEntries(
    parts.flatMap((part) => (isSchema(part.properties) ? Object.entries(part.properties) : [])),
  ),
  required: [...new Set(parts.flatMap((part) => listed(part.required)))],
});

/** Resolved against the folder of the file it stands in; closed where it lists properties. */
const closed = (schema: Schema, folder: string): Schema => {
  const { $ref, allOf, discriminator: _, ...own } = schema;
  const parts: Schema[] = [];
  if (typeof $ref === 'string') {
    const file = path.resolve(folder, $ref);
    parts.push(closed(read(file), path.dirname(file)));
  }
  if (Array.isArray(allOf)) parts.push(...allOf.filter(isSchema).map((part) => closed(part, folder)));
  const properties = isSchema(own.properties)
    ? Object.fromEntries(
        Object.entries(own.properties).map(([name, each]) => [name, isSchema(each) ? closed(each, folder) : each]),
      )
    : {};
  const items = isSchema(own.items) ? { items: closed(own.items, folder) } : {};
  const {
    properties: all,
    required,
    additionalProperties: __,
    ...rest
  } = merged([...parts, { ...own, properties, ...items }]);
  const named = isSchema(all) && Object.keys(all).length > 0;
  return {
    ...rest,
    ...(named ? { type: 'object', properties: all, additionalProperties: false } : {}),
    ...(Array.isArray(required) && required.length > 0 ? { required } : {}),
  };
};

export type Validate = (value: unknown) => string[];

export interface Standard {
  /** Errors of a value against a schema such as `resources/icarTreatmentEventResource`; empty where it is valid. */
  readonly validatorOf: (name: string) => Validate;
  readonly resourceNames: readonly string[];
}

/** The standard in a folder; undefined where it isn't there. */
export const standardIn = (folder: string): Standard | undefined => {
  if (!fs.existsSync(path.join(folder, 'resources'))) return undefined;
  return {
    validatorOf: (name) => {
      const file = path.join(folder, `${name}.json`);
      const ajv = new Ajv2020({ strict: false, allErrors: true });
      addFormats.default(ajv);
      ajv.addFormat('double', { type: 'number', validate: Number.isFinite });
      const validate = ajv.compile(closed(read(file), path.dirname(file)));
      return (value) => {
        validate(value);
        return (validate.errors ?? []).map(
          (error) => `${error.instancePath} ${error.message} ${JSON.stringify(error.params)}`,
        );
      };
    },
    resourceNames: fs.readdirSync(path.join(folder, 'resources')).map((file) => file.replace(/\.json$/, '')),
  };
};
