/** An event store on SQLite: the herd's entries appended one by one to a stream a cow, in hundreds to one stream, and every cow's state rebuilt from that. */
import fs from 'node:fs';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { answer, asked, peer, took } from './asked.mjs';

const { getSQLiteEventStore } = await import(pathToFileURL(peer.resolve('@event-driven-io/emmett-sqlite')).href);

const lines = await asked();
const events = lines.map((line) => {
  const { type, subject, ...metadata } = JSON.parse(line);
  return { stream: subject === undefined ? 'farm' : `cow-${subject}`, event: { type, data: metadata } };
});

const opened = (name) => {
  const fileName = `emmett-${name}-${process.pid}.db`;
  return {
    store: getSQLiteEventStore({ fileName, schema: { autoMigration: 'CreateOrUpdate' } }),
    close: () => {
      for (const ending of ['', '-wal', '-shm']) fs.rmSync(`${fileName}${ending}`, { force: true });
    },
  };
};

const ones = events.slice(0, 1_000);
const one = opened('ones');
const onesTook = await took(async () => {
  for (const { stream, event } of ones) await one.store.appendToStream(stream, [event]);
});
one.close();

const many = opened('hundreds');
const hundredsTook = await took(async () => {
  for (let first = 0; first < events.length; first += 100)
    await many.store.appendToStream(
      'herd',
      events.slice(first, first + 100).map(({ stream, event }) => ({ ...event, data: { ...event.data, stream } })),
    );
});
let seen = 0;
const rebuiltTook = await took(async () => {
  const { state } = await many.store.aggregateStream('herd', {
    initialState: () => new Map(),
    evolve: (cows, event) =>
      cows.set(event.data.stream, { count: (cows.get(event.data.stream)?.count ?? 0) + 1, last: event }),
  });
  for (const { count } of state.values()) seen += count;
});
many.close();
if (seen !== events.length) throw new Error(`${seen} of ${events.length} events were read back`);
answer({ ones: ones.length, onesTook, hundredsTook, rebuiltTook });
