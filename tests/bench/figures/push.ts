/**
 * Pushing over HTTP: a real server on loopback, 1,000 entries a call, and single entries beside bare durable commits: one
 * after the other, and from many devices at once.
 */
import { Worker } from 'node:worker_threads';
import { pino } from 'pino';
import { startServing } from '../../../api/server/listen.ts';
import { openBook } from '../../../events/book.ts';
import { readLine } from '../../../events/door.ts';
import { bareInserts } from '../bare.ts';
import { type Figure, millisecondsOf, rateFigure, sideBySide, timed, whole } from '../measure.ts';
import { inBatches, linesOf, newFile, removeBook, type Setting } from '../setting.ts';

/** Calls of one token: no device may send as fast as this measures, so many take turns. */
const EACH = 50;
const DEVICES = 16;

export const pushFigure = async (setting: Setting): Promise<Figure[]> => {
  const most = Math.min(setting.recorded, 20_000);
  const { lines: asSaid, now } = linesOf(setting.long, most);
  // A device speaks for itself alone: it leaves the source out.
  const lines = asSaid.map((line) => JSON.stringify({ ...JSON.parse(line), source: undefined }));
  const singles = lines.slice(0, setting.quick ? 100 : 500);
  const manySingles = lines.slice(0, setting.quick ? 320 : 4_000);
  /** A book that is served while `work` pushes so many entries under so many tokens; `work` gives its milliseconds. */
  const served = async (
    entries: number,
    many: number,
    work: (url: string, tokens: readonly string[]) => Promise<number>,
  ): Promise<number> => {
    const file = newFile(setting, 'push.book');
    const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
    const tokens = Array.from({ length: many }, (_, index) => book.devices.add(`bench ${index}`, 'manager').token);
    const serving = await startServing({ book, log: pino({ level: 'silent' }), port: 0 });
    const milliseconds = await work(serving.url, tokens);
    const { position } = book.head();
    await serving.stop();
    book.close();
    removeBook(file);
    if (position !== entries) throw new Error(`${position} of ${entries} pushed entries were recorded`);
    return milliseconds;
  };
  const pushed = (batches: readonly string[][]): Promise<number> =>
    served(batches.flat().length, Math.ceil(batches.length / EACH), (url, tokens) =>
      millisecondsOf(async () => {
        for (const [index, batch] of batches.entries()) {
          const answer = await fetch(`${url}/sync/push`, {
            method: 'POST',
            headers: {
              authorization: `Bearer ${tokens[Math.floor(index / EACH)]}`,
              'content-type': 'application/cloudevents-batch+json',
            },
            body: `[${batch.join(',')}]`,
          });
          const said = await answer.text();
          if (answer.status !== 200)
            throw new Error(`the push was answered with ${answer.status}: ${said.slice(0, 300)}`);
        }
      }),
    );
  /** Single entries from devices in a thread of their own, so many at once. */
  const pushedApart = (devices: number): Promise<number> => {
    const said = inBatches(manySingles, Math.ceil(manySingles.length / devices));
    const share = Math.ceil((said[0]?.length ?? 0) / EACH);
    return served(manySingles.length, said.length * share, (url, tokens) =>
      apart(
        url,
        said.map((own, device) =>
          own.map((line, index) => ({
            token: tokens[device * share + Math.floor(index / EACH)] ?? '',
            body: `[${line}]`,
          })),
        ),
      ),
    );
  };
  const recorded = async (): Promise<number> => {
    const file = newFile(setting, 'record.book');
    const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
    const milliseconds = await timed(() => {
      for (const batch of inBatches(lines, 1_000))
        book.record(batch.map((line) => readLine(line, { source: 'bench', author: 'bench', now })));
    })();
    book.close();
    removeBook(file);
    return milliseconds;
  };
  const committed = (some: readonly string[]) => async (): Promise<number> => {
    const file = newFile(setting, 'bare.db');
    const milliseconds = await timed(() => bareInserts(file, some, 1))();
    removeBook(file);
    return milliseconds;
  };
  const many = await sideBySide(setting.runs, () => pushed(inBatches(lines, 1_000)), recorded);
  const one = await sideBySide(setting.runs, () => pushed(inBatches(singles, 1)), committed(singles));
  const apartOne = await sideBySide(setting.runs, () => pushedApart(1), committed(manySingles));
  const apartMany = await sideBySide(setting.runs, () => pushedApart(DEVICES), committed(manySingles));
  const both = (count: number, { product, baseline }: { product: number; baseline: number }) =>
    [
      { count, milliseconds: product },
      { count, milliseconds: baseline },
    ] as const;
  const single = (on: string, entries: readonly string[], measured: { product: number; baseline: number }) =>
    rateFigure(
      { figure: 'push over HTTP, one entry a call', on, against: 'one durable commit each', least: 0.7 },
      ...both(entries.length, measured),
    );
  return [
    rateFigure(
      {
        figure: 'push over HTTP, 1,000 entries a call',
        on: `${whole(lines.length)} entries`,
        against: 'record of the same',
        least: 0.75,
      },
      ...both(lines.length, many),
    ),
    single(`${whole(singles.length)} entries, one after the other, by the fetch of the same process`, singles, one),
    single(`${whole(manySingles.length)} entries, one after the other, from another thread`, manySingles, apartOne),
    single(`${whole(manySingles.length)} entries, from ${DEVICES} devices at once`, manySingles, apartMany),
  ];
};

const apart = (url: string, devices: readonly (readonly { token: string; body: string }[])[]) =>
  new Promise<number>((resolve, reject) => {
    const worker = new Worker(new URL('../pushing.mjs', import.meta.url), {
      workerData: { port: Number(new URL(url).port), devices },
    });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
