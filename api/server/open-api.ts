/** The OpenAPI 3.1 document, made from the routes' own declarations and from the schemas of the entry kinds. */
import { z } from 'zod';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { kindsFor, mayAsk, ROLES } from '../devices/roles.ts';
import { VERSION } from '../version.ts';
import type { Route } from './route.ts';
import { entry, problem, receipt, refusal } from './schemas.ts';

type Json = Readonly<Record<string, unknown>>;

export interface OpenApi {
  readonly openapi: '3.1.0';
  readonly info: { readonly title: string; readonly version: string; readonly description: string };
  readonly paths: Readonly<Record<string, Readonly<Record<string, Json>>>>;
  readonly components: Json & { readonly schemas: Readonly<Record<string, Json>> };
}

export const openApi = (routes: readonly Route[]): OpenApi => ({
  openapi: '3.1.0',
  info: {
    title: 'Byrebook',
    version: VERSION,
    description: [
      'Devices say what happened to the cows; books of one farm tell each other; people get the sheets.',
      'This is arithmetic on what the label and the vet say; it replaces neither.',
      `Roles: ${ROLES.map((role) => `${role} writes ${kindsFor(role)?.join(', ') ?? 'everything'}`).join('; ')}.`,
    ].join(' '),
  },
  paths: pathsOf(routes),
  components: {
    securitySchemes: { token: { type: 'http', scheme: 'bearer', description: 'A token that "device add" printed.' } },
    schemas: {
      Entry: schemaOf(entry),
      Receipt: schemaOf(receipt),
      Refusal: schemaOf(refusal),
      Problem: schemaOf(problem),
      ...Object.fromEntries(
        ENTRY_TYPES.map((type) => {
          const { schema, when, example } = KINDS[type];
          return [type, { ...schemaOf(schema), description: `data of ${type}. ${when}`, examples: [example] }];
        }),
      ),
    },
  },
});

const pathsOf = (routes: readonly Route[]): OpenApi['paths'] => {
  const paths: Record<string, Record<string, Json>> = {};
  for (const each of routes) {
    const there = paths[each.path] ?? {};
    there[each.method] = operation(each);
    paths[each.path] = there;
  }
  return paths;
};

const operation = (route: Route): Json => ({
  operationId: `${route.method} ${route.path}`.replace(/[^A-Za-z]+/g, '-').replace(/^-|-$/g, ''),
  summary: route.summary,
  ...(route.right === null
    ? { security: [] }
    : {
        security: [{ token: [] }],
        description: `For the roles ${ROLES.filter((role) => route.right !== null && mayAsk(role, route.right)).join(', ')}.`,
      }),
  parameters: [
    ...parameters(route.params, 'path'),
    ...parameters(route.query, 'query'),
    ...Object.entries(route.headers ?? {}).map(([name, description]) => ({
      name,
      in: 'header',
      required: false,
      description,
      schema: { type: 'string' },
    })),
  ],
  ...(route.body === undefined
    ? {}
    : {
        requestBody: {
          required: true,
          content: Object.fromEntries(
            route.body.types.map((type) => [type, { schema: schemaOf(route.body?.schema ?? z.unknown()) }]),
          ),
        },
      }),
  responses: {
    ...Object.fromEntries(
      Object.entries(route.answers).map(([status, { says, type, schema }]) => [
        status,
        { description: says, content: { [type]: schema === undefined ? {} : { schema: schemaOf(schema) } } },
      ]),
    ),
    default: {
      description: 'A problem (RFC 9457), with a sentence that says what to do',
      content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
    },
  },
});

const parameters = (schema: z.ZodObject, place: 'path' | 'query'): Json[] =>
  Object.entries(schema.shape).map(([name, each]) => {
    const { description, ...rest } = schemaOf(each);
    return {
      name,
      in: place,
      required: place === 'path' || !z.safeParse(each as z.ZodType, undefined).success,
      ...(description === undefined ? {} : { description }),
      schema: rest,
    };
  });

const schemaOf = (schema: unknown): Record<string, unknown> => {
  const { $schema: _, ...rest } = z.toJSONSchema(schema as z.ZodType, { io: 'input', unrepresentable: 'any' });
  return rest;
};
