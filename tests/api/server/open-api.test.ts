/** The description is made from what runs: every route in it, every schema compiles and takes the examples. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { ENTRY_TYPES, KINDS } from '../../../events/kinds.ts';
import { aServer, doseOf } from './a-server.ts';

const document = z.looseObject({
  openapi: z.literal('3.1.0'),
  paths: z.record(z.string(), z.record(z.string(), z.looseObject({ responses: z.record(z.string(), z.unknown()) }))),
  components: z.looseObject({ schemas: z.record(z.string(), z.record(z.string(), z.unknown())) }),
});

test('every route that is served stands in the OpenAPI document, and no other', async () => {
  const { ask, serving } = await aServer();
  const { paths } = document.parse(await (await ask('/openapi.json', { as: null })).json());
  const described = Object.entries(paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method} ${path}`),
  );
  const described2 = serving.app.routes.filter(({ path }) => !['/openapi.json', '/protocol'].includes(path));
  expect(described.sort()).toEqual(described2.map(({ method, path }) => `${method} ${path}`).sort());
});

test.each(ENTRY_TYPES)('the schema of %s takes its example and refuses a field that is not known', async (type) => {
  const { ask } = await aServer();
  const { components } = document.parse(await (await ask('/openapi.json')).json());
  const { examples: _, ...schema } = components.schemas[type] ?? {};
  const check = new Ajv2020({ strict: false }).compile(schema);
  expect(check(KINDS[type].example)).toBe(true);
  expect(check({ ...KINDS[type].example, 'not-a-field': 1 })).toBe(false);
});

test('what the server answers fits what the document says it answers', async () => {
  const { ask, push } = await aServer();
  const { components } = document.parse(await (await ask('/openapi.json')).json());
  const check = (name: string) => new Ajv2020({ strict: false }).compile(components.schemas[name] ?? false);
  const { receipts } = await push([doseOf('101'), { type: 'x' }]);
  for (const receipt of receipts) expect(check('Receipt')(receipt)).toBe(true);
  expect(check('Problem')(await (await ask('/nowhere')).json())).toBe(true);
  for (const row of (await (await ask('/sync/pull')).json()) as unknown[]) expect(check('Entry')(row)).toBe(true);
});

test('the page for people names every address and every kind, and brings nothing from elsewhere', async () => {
  const { ask, serving } = await aServer();
  const answer = await ask('/protocol', { as: null });
  expect(answer.headers.get('content-type')).toMatch(/^text\/html/);
  const page = await answer.text();
  for (const { path } of serving.app.routes.slice(0, -2)) expect(page).toContain(path);
  for (const type of ENTRY_TYPES) expect(page).toContain(`<h3>${type}</h3>`);
  expect(page).not.toMatch(/<script|https?:\/\//);
});
