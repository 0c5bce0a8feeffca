/** The record keeper's tools for the log itself, by the real command: verify, proofs, copies, archives, a lost key. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';

const COMMAND = path.resolve('api/byrebook.mjs');
const home = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

const byrebook = (...words: string[]): { status: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [COMMAND, ...words], { cwd: home, encoding: 'utf8' });
  expect(stderr).not.toMatch(/^\s+at /m);
  return { status, out: stdout, err: stderr };
};
/** Standard output as JSON, of a command that is to succeed. */
const json = (...words: string[]): Record<string, unknown> => {
  const { status, out, err } = byrebook(...words);
  expect([status, err]).toEqual([0, '']);
  return JSON.parse(out) as Record<string, unknown>;
};
const place = (name: string): string => path.join(home, name);
const write = (name: string, text: string): string => {
  fs.writeFileSync(place(name), text);
  return name;
};

const treatment = (id: string): string =>
  `${JSON.stringify({
    id,
    type: 'treatment',
    subject: '101',
    time: '2024-03-01T10:00:00Z',
    author: 'Marta',
    data: { medicine: 'Not listed' },
  })}\n`;

let issued: { position: number; root: string; id: string };

beforeAll(() => {
  const lines = [
    {
      type: 'farm-set-up',
      data: {
        name: 'Alder Bank',
        timeZone: 'UTC',
        milkings: [{ name: 'morning', start: '05:00' }],
        parlour: { stalls: 20, turnMinutes: 10 },
        groups: [{ name: 'Milkers', kind: 'milking' }],
      },
    },
    {
      type: 'cow-entered',
      subject: '101',
      data: { group: 'Milkers', lactation: 2, calvedOn: '2024-01-10', milkHoldUntil: 'none', meatHoldUntil: 'none' },
    },
  ].map((entry, index) => JSON.stringify({ id: `e${index}`, time: '2024-02-01T12:00:00Z', author: 'Marta', ...entry }));
  write('farm.jsonl', `${lines.join('\n')}\n`);
  expect(byrebook('record', 'farm.jsonl').status).toBe(0);
  fs.writeFileSync(place('kept.checkpoint'), byrebook('checkpoint').out);
  expect(byrebook('print', '--issue', '--out', 'sheets').status).toBe(0);
  write('more.jsonl', treatment('late'));
  expect(byrebook('record', 'more.jsonl').status).toBe(0);
  const entries = byrebook('export')
    .out.trim()
    .split('\n')
    .map((each) => JSON.parse(each));
  const set = entries.find(({ type }) => type === 'sheet-issued');
  issued = { ...set.data, id: set.id };
}, 60_000);

/** The book and its key in another place under their own names, as a whole folder that was moved would be. */
const bookAlone = (name: string): string => {
  fs.mkdirSync(place(name));
  for (const end of ['', '-wal']) {
    if (fs.existsSync(place(`farm.book${end}`)))
      fs.copyFileSync(place(`farm.book${end}`), place(`${name}/farm.book${end}`));
  }
  return `${name}/farm.book`;
};

describe('help and usage', () => {
  test.each([
    'verify',
    'proof',
    'proof inclusion',
    'proof consistency',
    'check-proof',
    'checkpoint',
    'backup',
    'restore',
    'archive',
    'import archive',
    'new-key',
  ])('%s says with --help what it does', (command) => {
    const { status, out } = byrebook(...command.split(' '), '--help');
    expect([status, out.split('\n')[0]]).toEqual([0, expect.stringContaining(`byrebook ${command}`)]);
  });

  test.each([
    [['proof', 'consistency', 'four']],
    [['proof', 'consistency', '4000']],
    [['verify', '--paper', '3:abc']],
    [['verify', '--paper', 'abcdef0123456789']],
    [['verify', '--checkpoint', 'farm.jsonl']],
    [['verify', '--checkpoint', 'not-there']],
    [['check-proof', 'not-there']],
    [['backup']],
    [['restore', 'not-there', '--book', 'x.book']],
  ])('%j is wrong usage', (words) => {
    const { status, err } = byrebook(...words);
    expect([status, err.length > 20]).toEqual([2, true]);
  });
});

describe('verify', () => {
  test('holds the book against a sheet from the wall: 8 digits are enough, one wrong digit is found', () => {
    const { position, root } = issued;
    expect(json('verify', '--paper', `${position}:${root.slice(0, 32)}`, '--json')).toMatchObject({
      ok: true,
      notes: expect.arrayContaining([expect.stringContaining('The paper agrees')]),
    });
    expect(byrebook('verify', '--paper', `${position}:${root.slice(0, 8).toUpperCase()}`).status).toBe(0);
    const wrong = (root.startsWith('0') ? '1' : '0') + root.slice(1, 32);
    const { status, out } = byrebook('verify', '--paper', `${position}:${wrong}`);
    expect([status, out]).toEqual([1, expect.stringContaining(`the paper says ${wrong}`)]);
  });

  test('a sheet from beyond the end of the log says that the end was taken off', () => {
    const { status, out } = byrebook('verify', '--paper', `400:${issued.root.slice(0, 32)}`);
    expect([status, out]).toEqual([1, expect.stringContaining('the log ends at 4')]);
  });

  test('holds the book against a checkpoint that was kept, and another book’s does not agree', () => {
    const { status, out } = byrebook('verify', '--checkpoint', 'kept.checkpoint');
    expect([status, out]).toEqual([
      0,
      expect.stringContaining('The checkpoint of position 2 agrees. It is signed with'),
    ]);
    byrebook('--book', 'other.book', 'record', 'more.jsonl');
    write('other.checkpoint', byrebook('--book', 'other.book', 'checkpoint').out);
    const other = byrebook('verify', '--checkpoint', 'other.checkpoint');
    expect([other.status, other.out]).toEqual([1, expect.stringContaining('which this file never was')]);
  });

  test('--deep works every issued set out again', () => {
    const { status, out } = byrebook('verify', '--deep');
    expect([status, out]).toEqual([0, expect.stringContaining('1 issued set worked out again from the log.')]);
    expect(out).toContain('Everything agrees.');
  });

  test('an entry changed behind the guards is named by its position, and --deep says so too', () => {
    const book = bookAlone('changed');
    const db = new Database(place(book));
    db.exec('drop trigger entries_are_never_changed');
    db.exec("update entries set entry = replace(entry, 'Milkers', 'Molkers') where position = 2");
    db.close();
    for (const words of [['verify'], ['verify', '--deep']]) {
      const { status, out } = byrebook('--book', book, ...words);
      expect([status, out]).toEqual([1, expect.stringContaining('position 2: its text does not give the fingerprint')]);
    }
  });
});

describe('proofs', () => {
  test('an entry taken away with its proof, by id or by position, is checked where there is no book', () => {
    const proof = byrebook('proof', 'inclusion', 'late');
    expect(byrebook('proof', 'inclusion', '4').out).toBe(proof.out);
    write('proof.json', proof.out);
    const { verifierKey } = json('checkpoint', '--json');
    const away = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
    onTestFinished(() => fs.rmSync(away, { recursive: true, force: true }));
    fs.copyFileSync(place('proof.json'), path.join(away, 'proof.json'));
    const checked = spawnSync(process.execPath, [COMMAND, 'check-proof', 'proof.json', '--key', String(verifierKey)], {
      cwd: away,
      encoding: 'utf8',
    });
    expect([checked.status, checked.stderr]).toEqual([0, '']);
    expect(checked.stdout).toContain('stands at position 4 of the book of 4 entries');
    expect(checked.stdout).toContain('signed with the key that was given');
    expect(fs.readdirSync(away)).toEqual(['proof.json']);
  });

  test('a changed entry in a proof does not hold', () => {
    write('forged.json', byrebook('proof', 'inclusion', 'late').out.replace('Not listed', 'Not Listed'));
    const { status, out } = byrebook('check-proof', 'forged.json');
    expect([status, out]).toEqual([1, expect.stringContaining('The proof does not hold')]);
    expect(JSON.parse(byrebook('check-proof', 'forged.json', '--json').out)).toMatchObject({ holds: false });
  });

  test('today’s book is shown to continue the one of the checkpoint that somebody kept', () => {
    write('consistency.json', byrebook('proof', 'consistency', '2').out);
    expect(byrebook('check-proof', 'consistency.json', '--checkpoint', 'kept.checkpoint')).toMatchObject({
      status: 0,
      out: expect.stringContaining('The book of 4 entries continues the one of 2'),
    });
    expect(json('check-proof', 'consistency.json', '--json')).toMatchObject({ holds: true });
    write('now.checkpoint', byrebook('checkpoint').out);
    expect(byrebook('check-proof', 'consistency.json', '--checkpoint', 'now.checkpoint').status).toBe(1);
  });

  test('an entry that is not there, and a file that is no proof, are said in a sentence', () => {
    expect(byrebook('proof', 'inclusion', 'no-such')).toMatchObject({
      status: 1,
      err: expect.stringContaining('no entry no-such'),
    });
    expect(byrebook('check-proof', 'farm.jsonl')).toMatchObject({
      status: 1,
      err: expect.stringContaining('not JSON'),
    });
    write('empty.json', '{}');
    expect(byrebook('check-proof', 'empty.json')).toMatchObject({
      status: 1,
      out: expect.stringContaining('not a proof'),
    });
  });
});

describe('backup and restore', () => {
  test('a restored book is a new book of which paper, checkpoint and issued set still hold', () => {
    const { position, root, verifies } = json('backup', 'copy.book', '--json');
    expect([position, root, verifies]).toEqual([4, json('verify', '--json').root, true]);
    expect(json('--book', 'restored.book', 'restore', 'copy.book', '--json')).toMatchObject({ position: 4 });
    const paper = `${issued.position}:${issued.root.slice(0, 32)}`;
    const { status, out } = byrebook(
      '--book',
      'restored.book',
      'verify',
      '--deep',
      '--paper',
      paper,
      '--checkpoint',
      'kept.checkpoint',
    );
    expect(status, out).toBe(0);
    for (const says of ['The paper agrees', 'The checkpoint of position 2 agrees', '1 issued set worked out again']) {
      expect(out).toContain(says);
    }
    expect(out).toContain('From position 5 on this file is the book');
    const last = byrebook('--book', 'restored.book', 'export').out.trim().split('\n').at(-1) ?? '';
    expect(JSON.parse(last)).toMatchObject({ type: 'book-continued', data: { position: 4, root } });
  });

  test('neither overwrites', () => {
    write('taken.book', 'something else');
    expect(byrebook('backup', 'taken.book')).toMatchObject({
      status: 1,
      err: expect.stringContaining('never overwrites'),
    });
    byrebook('backup', 'copy-2.book');
    expect(byrebook('--book', 'taken.book', 'restore', 'copy-2.book')).toMatchObject({
      status: 1,
      err: expect.stringContaining('never overwrites'),
    });
    expect(fs.readFileSync(place('taken.book'), 'utf8')).toBe('something else');
  });

  test('a file that was only copied says that it is a new book when it is written to, and not before', () => {
    const book = bookAlone('copied');
    expect(byrebook('--book', book, 'why', '101').err).toBe('');
    expect(json('--book', book, 'verify', '--json')).toMatchObject({ position: 4 });
    write('copied.jsonl', treatment('in-the-copy'));
    const { status, err } = byrebook('--book', book, 'record', 'copied.jsonl');
    expect([status, err]).toEqual([0, expect.stringContaining('from position 4 on it is the new book')]);
    const types = byrebook('--book', book, 'export')
      .out.trim()
      .split('\n')
      .map((line) => JSON.parse(line).type);
    expect(types.slice(4)).toEqual(['book-continued', 'treatment']);
  });
});

describe('an archive', () => {
  test.each([
    ['archive', ['archive']],
    ['export --archive', ['export', '--archive']],
  ])('made by %s comes back with the same entries and root', (name, words) => {
    const file = `${name.replace(/\W+/g, '-')}.gz`;
    const { root, position } = json(...words, file, '--json');
    const to = `${file}.book`;
    expect(json('--book', to, 'import', 'archive', file, '--json')).toMatchObject({ root, position: 4 });
    expect(position).toBe(4);
    const [was, is] = [byrebook('export').out, byrebook('--book', to, 'export').out];
    expect(is.startsWith(was)).toBe(true);
    expect(byrebook('--book', to, 'verify', '--deep')).toMatchObject({
      status: 0,
      out: expect.stringContaining('1 issued set worked out again'),
    });
    expect(byrebook('--book', to, 'import', 'archive', file)).toMatchObject({ status: 1 });
  });
});

describe('a lost key', () => {
  test('verify says so, new-key makes another by an entry, and verify says that', () => {
    byrebook('backup', 'keyless.book');
    const lost = byrebook('--book', 'keyless.book', 'verify');
    expect([lost.status, lost.out]).toEqual([0, expect.stringContaining('keyless.book.key is missing')]);
    expect(json('--book', 'keyless.book', 'new-key', '--json')).toMatchObject({ position: 4 });
    const { status, out } = byrebook('--book', 'keyless.book', 'verify', '--checkpoint', 'kept.checkpoint');
    expect(status, out).toBe(0);
    expect(out).toContain('whose key is lost or stayed with another file; checkpoints of that time are signed with');
    expect(out).toContain('with a new key that the entry there names');
    expect(out).toContain('checkpoint signed');
    expect(byrebook('--book', 'keyless.book', 'new-key')).toMatchObject({
      status: 1,
      err: expect.stringContaining('nothing was changed'),
    });
  });
});
