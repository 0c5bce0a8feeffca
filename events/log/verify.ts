/**
 * Recomputes everything in a book from its rows and trusts nothing that is stored beside them: every leaf, the tree,
 * the head, the signature, the papers. It reads row by row in constant memory, says what is wrong at which position
 * (the first is where the log stops being what was recorded), and claims no more than it can show.
 */
import { canonicalJson } from '../../shared/fingerprint.ts';
import type { Format } from './formats.ts';
import { currentBook, type Head, originOf, readHead } from './head.ts';
import { rootOf } from './merkle.ts';
import { noteIsSignedBy, parseCheckpoint } from './note.ts';
import { keyIsOpenToOthers, keyPathOf, type NoKey, readKey } from './signing-key.ts';
import { all, type Connection, sqlFor } from './tables.ts';
import { checkPapers, checkSetAside } from './verify-beside.ts';
import { type Checked, checkEntries } from './verify-entries.ts';
import { checkNames } from './verify-names.ts';
import type { SaidRoot, Tell } from './verify-roots.ts';
import { checkSchema } from './verify-schema.ts';
import { type Joined, sharedStripes } from './verify-together.ts';

export interface VerifyReport {
  readonly ok: boolean;
  /** Entries found, and the root they give. */
  readonly position: number;
  readonly root: string;
  /** In the order of their positions; null where a problem is not about one entry. */
  readonly problems: { readonly position: number | null; readonly problem: string }[];
  /** True when the head carries a good signature by this book's key. */
  readonly signed: boolean;
  readonly papers: number;
  readonly setAside: number;
  /** What the reader must know to take the verdict for what it is. */
  readonly notes: string[];
}

const MOST_PROBLEMS = 1_000;

/** Where it is `joined` to a helping thread, that one takes over some of the rows. */
export const verifyBook = (db: Connection, path: string, formats: readonly Format[], joined?: Joined): VerifyReport =>
  ofOneMoment(db, (): VerifyReport => {
    const problems: { position: number | null; problem: string }[] = [];
    const notes: string[] = [];
    const tell: Tell = (position, problem) => {
      if (problems.length < MOST_PROBLEMS) problems.push({ position, problem });
    };
    /** Damage that stops the database from reading on is a finding, not a failure of the check. */
    const attempt = <T>(what: string, otherwise: T, check: () => T): T => {
      try {
        return check();
      } catch (error) {
        tell(null, `${what} can't be read to the end (${error instanceof Error ? error.message : String(error)})`);
        return otherwise;
      }
    };
    // First of all, so that the helper has something to do from the beginning.
    const parts = joined === undefined ? undefined : attempt('the log', undefined, () => sharedStripes(db, joined));
    attempt('the layout of the file', undefined, () => checkSchema(db, formats, tell));
    const standing = attempt('the head', undefined, () => ({ head: readHead(db), ...currentBook(db) }));
    const checkpoint = standing === undefined ? undefined : parseCheckpoint(standing.head.checkpoint);
    const signedRoot: SaidRoot[] =
      checkpoint === undefined
        ? []
        : [{ by: null, position: checkpoint.size, root: checkpoint.root, who: "the book's last signed checkpoint" }];
    const nothing: Checked = { size: 0, peaks: [], continued: [] };
    const range = attempt('the log', nothing, () => checkEntries(db, signedRoot, tell, parts?.start, parts?.stripes));
    const root = rootOf(range);
    let signed = false;
    if (standing !== undefined) {
      checkHead(standing.head, range, tell);
      signed = attempt('the checkpoint', false, () => checkSignature(db, standing.head, standing, tell));
      notes.push(...keyNotes(path, standing, signed));
      if (standing.head.rehearsal !== null) {
        notes.push('This is a rehearsal: its clock is fixed and its key is known to everybody, so it proves nothing.');
      }
    }
    notes.push(...attempt('what this file has been called', [], () => checkNames(db, range.continued, tell)));
    const papers = attempt('the printed papers', 0, () => checkPapers(db, tell));
    const setAside = attempt('what was set aside', 0, () => checkSetAside(db, standing?.head.chain ?? '', tell));
    notes.push(
      'No witness outside this file is known to it. Compare the position and root printed on any issued sheet, or a checkpoint that somebody else kept: only that shows that the log was not replaced as a whole.',
    );
    problems.sort((a, b) => (a.position ?? Number.MAX_SAFE_INTEGER) - (b.position ?? Number.MAX_SAFE_INTEGER));
    return { ok: problems.length === 0, position: range.size, root, problems, signed, papers, setAside, notes };
  });

/** Reads inside one transaction; a damaged file may refuse even to end it, which is no finding of its own. */
const ofOneMoment = <T>(db: Connection, work: () => T): T => {
  db.exec('begin');
  try {
    return work();
  } finally {
    try {
      if (db.inTransaction) db.exec('rollback');
    } catch {
      // What is wrong has been told by then.
    }
  }
};

const checkHead = (head: Head, range: { size: number; peaks: readonly string[] }, tell: Tell): void => {
  if (head.size !== range.size) {
    tell(null, `the head counts ${head.size} entries, but ${range.size} are there: the end of the log was changed`);
  } else if (head.root !== rootOf(range)) {
    // Every full subtree has a hash of its own in the head: the first that differs narrows the place down.
    let start = 0;
    let end = range.size;
    for (const [index, peak] of range.peaks.entries()) {
      const width = 2 ** Math.floor(Math.log2(range.size - start));
      end = start + width;
      if (head.peaks[index] !== peak) break;
      start = end;
    }
    const place = start < end ? `between positions ${start + 1} and ${end}` : 'in the head itself';
    tell(null, `the entries do not give the root that the head keeps: something was changed ${place}`);
  } else if (canonicalJson(head.peaks) !== canonicalJson(range.peaks)) {
    tell(null, 'the hashes that the next entry builds on are not those of the entries: the head was changed');
  }
};

/** True when the head itself is signed. A signature that is there and not good is a problem; none is not. */
const checkSignature = (db: Connection, head: Head, current: { book: string; key: string }, tell: Tell): boolean => {
  if (head.checkpoint === '') return false;
  const names = all(db, sqlFor.selectFrom('books').select(['book', 'key']).orderBy('number', 'desc'));
  const signer = names.find(({ book, key }) =>
    noteIsSignedBy(head.checkpoint, originOf(book), Buffer.from(key, 'hex')),
  );
  const checkpoint = parseCheckpoint(head.checkpoint);
  if (signer === undefined || checkpoint === undefined || checkpoint.origin !== originOf(signer.book)) {
    tell(null, "the book's checkpoint is not signed by the book's key: the checkpoint or the key was changed");
    return false;
  }
  return signer.book === current.book && checkpoint.size === head.size && checkpoint.root === head.root;
};

const keyNotes = (path: string, current: { head: Head; key: string }, signed: boolean): string[] => {
  const held = readKey(path, current.key);
  const last = parseCheckpoint(current.head.checkpoint)?.size;
  const upTo = last === undefined || signed ? '' : ` The last signed one is of position ${last}.`;
  return [
    ...(signed ? [] : [`The head of this book is not signed.${upTo}`]),
    ...('why' in held ? [sentenceOn(held)] : []),
    ...(keyIsOpenToOthers(path)
      ? [`Others on this computer may read ${keyPathOf(path)}; take that right away (chmod 600).`]
      : []),
  ];
};

const sentenceOn = ({ because, why }: NoKey): string => {
  if (because === 'unusable') {
    return `New checkpoints are unsigned, since ${why}; put the key back beside the book, or move that file away and new-key makes another.`;
  }
  const say = `${why.charAt(0).toUpperCase()}${why.slice(1)}.`;
  const goesOn = 'the first new entry says that this file goes on as a new book with a new key (new-key does so now)';
  return because === 'copied'
    ? `${say} When something is recorded here, ${goesOn}.`
    : `${say} A backup has none. If it is lost, ${goesOn}; if you have it, put it back before anything is recorded.`;
};
