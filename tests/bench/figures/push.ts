/** Pushing over HTTP: a real server on loopback, 1,000 entries a call, and single entries beside bare durable commits. */
import { pino } from 'pino';
import { startServing } from '../../../api/server/listen.ts';
import { openBook } from '../../../events/book.ts';
import { readLine } from '../../../events/door.ts';
import { bareInserts } from '../bare.ts';
import { type Figure, millisecondsOf, rateFigure, sideBySide, timed, whole } from '../measure.ts';
import { inBatches, linesOf, newFile, removeBook, type Setting } from '../setting.ts';

/** Calls of one device. */
const EACH = 50;

export const pushFigure = async (setting: Setting): Promise<Figure[]> => {
  const most = Math.min(setting.recorded, 20_000);
  const { lines: asSaid, now } = linesOf(setting.long, most);
  // A device speaks for itself alone: it leaves the source out.
  const lines = asSaid.map((line) => JSON.stringify({ ...JSON.parse(line), source: undefined }));
  const singles = lines.slice(0, setting.quick ? 100 : 500);
  const pushed = async (batches: readonly string[][]): Promise<number> => {
    const file = newFile(setting, 'push.book');
    const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
    // No device may send as fast as this measures, so many take turns.
    const tokens = Array.from(
      { length: Math.ceil(batches.length / EACH) },
      (_, index) => book.devices.add(`bench ${index}`, 'manager').token,
    );
    const serving = await startServing({ book, log: pino({ level: 'silent' }), port: 0 });
    const milliseconds = await millisecondsOf(async () => {
      for (const [index, batch] of batches.entries()) {
        const answer = await fetch(`${serving.url}/sync/push`, {
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
    });
    const { position } = book.head();
    await serving.stop();
    book.close();
    removeBook(file);
    const sent = batches.reduce((sum, batch) => sum + batch.length, 0);
    if (position !== sent) throw new Error(`${position} of ${sent} pushed entries were recorded`);
    return milliseconds;
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
  const committed = async (): Promise<number> => {
    const file = newFile(setting, 'bare.db');
    const milliseconds = await timed(() => bareInserts(file, singles, 1))();
    removeBook(file);
    return milliseconds;
  };
  const many = await sideBySide(setting.runs, () => pushed(inBatches(lines, 1_000)), recorded);
  const one = await sideBySide(setting.runs, () => pushed(inBatches(singles, 1)), committed);
  const both = (count: number, { product, baseline }: { product: number; baseline: number }) =>
    [
      { count, milliseconds: product },
      { count, milliseconds: baseline },
    ] as const;
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
    rateFigure(
      {
        figure: 'push over HTTP, one entry a call',
        on: `${whole(singles.length)} entries, one after the other`,
        against: 'one durable commit each',
        least: 0.7,
      },
      ...both(singles.length, one),
    ),
  ];
};
