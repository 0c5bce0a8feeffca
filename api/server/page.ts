/** The OpenAPI document as a page for people: no script, nothing from elsewhere. */
import { html } from 'hono/html';
import { z } from 'zod';
import type { OpenApi } from './open-api.ts';
import { PROBLEMS } from './problem.ts';

const parameter = z.looseObject({ name: z.string(), in: z.string(), description: z.string().optional() });
const operation = z.looseObject({
  summary: z.string(),
  description: z.string().optional(),
  parameters: z.array(parameter),
  requestBody: z.looseObject({ content: z.record(z.string(), z.unknown()) }).optional(),
  responses: z.record(
    z.string(),
    z.looseObject({ description: z.string(), content: z.record(z.string(), z.unknown()) }),
  ),
});
const kind = z.looseObject({ description: z.string().optional(), examples: z.array(z.unknown()).optional() });

export const readablePage = (document: OpenApi): string =>
  String(
    html`<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Byrebook: how to speak to it</title><link rel="stylesheet" href="/desk/desk.css"></head><body><main>
<h1>How to speak to this book</h1><p>${document.info.description}</p>
<p>Version ${document.info.version}. The same for programs: <a href="/openapi.json">openapi.json</a>.</p>
<h2>Addresses</h2>${Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, each]) =>
        address(`${method.toUpperCase()} ${path}`, operation.parse(each)),
      ),
    )}
<h2>Kinds of entry</h2>${Object.entries(document.components.schemas)
      .filter(([name]) => /^[a-z]/.test(name))
      .map(([name, each]) => kindOf(name, kind.parse(each)))}
<h2>Problems</h2><dl>${Object.entries(PROBLEMS).map(
      ([name, [status, title]]) => html`<dt id="${name}">/problems/${name}</dt><dd>${status}: ${title}</dd>`,
    )}</dl></main></body></html>`,
  );

const address = (heading: string, each: z.infer<typeof operation>) => html`<section><h3>${heading}</h3>
<p>${each.summary} ${each.description ?? ''}</p>
${each.parameters.length === 0 ? '' : html`<dl>${each.parameters.map((one) => html`<dt>${one.name} (${one.in})</dt><dd>${one.description ?? ''}</dd>`)}</dl>`}
${each.requestBody === undefined ? '' : html`<p>Takes <code>${Object.keys(each.requestBody.content).join(', ')}</code></p>`}
<p>${Object.entries(each.responses).map(([status, answer]) => html`${status}: ${answer.description} <code>${Object.keys(answer.content).join(', ')}</code>. `)}</p></section>`;

const kindOf = (
  name: string,
  each: z.infer<typeof kind>,
) => html`<section><h3>${name}</h3><p>${each.description ?? ''}</p>
<pre>${JSON.stringify(each.examples?.[0] ?? {}, null, 2)}</pre></section>`;
