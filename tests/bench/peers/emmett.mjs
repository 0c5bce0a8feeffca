/** An event store on SQLite: the herd's entries appended one by one and in hundreds, a stream a cow, and every state rebuilt. */
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
  for (let first = 0; first < events.length; first += 100) {
    for (const [stream, those] of byStream(events.slice(first, first + 100)))
      await many.store.appendToStream(
        stream,
        those.map(({ event }) => event),
      );
  }
});
const streams = [...new Set(events.map(({ stream }) => stream))];
let seen = 0;
const rebuiltTook = await took(async () => {
  for (const stream of streams) {
    const { state } = await many.store.aggregateStream(stream, {
      initialState: () => ({ count: 0, last: null }),
      evolve: (before, event) => ({ count: before.count + 1, last: event }),
    });
    seen += state.count;
  }
});
many.close();
if (seen !== events.length) throw new Error(`${seen} of ${events.length} events were read back`);
answer({ ones: ones.length, onesTook, hundredsTook, rebuiltTook });

function byStream(list) {
  const groups = new Map();
  for (const each of list) groups.set(each.stream, [...(groups.get(each.stream) ?? []), each]);
  return groups;
}
