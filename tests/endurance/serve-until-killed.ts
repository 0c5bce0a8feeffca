/**
 * A program for the endurance tests: the server with nothing around it. It loads, says so, and waits to be told the port, so
 * that the next one stands ready when this one is killed.
 */
import process from 'node:process';
import { pino } from 'pino';
import { startServing } from '../../api/server/listen.ts';
import { openBook } from '../../events/book.ts';
import { systemClock } from '../../shared/clock.ts';

const [, , file = ''] = process.argv;
const log = pino({ level: 'error', base: null }, pino.destination({ fd: 2, sync: true }));

process.once('message', async (port: number) => {
  const book = openBook(file, { clock: systemClock });
  const serving = await startServing({ book, log, port });
  process.once('SIGTERM', async () => {
    await serving.stop();
    book.close();
    process.disconnect();
  });
  process.send?.({ url: serving.url });
});
process.send?.('loaded');
