/**
 * Checkpoints against published values: RFC 8032 section 7.1 (Ed25519), and the signed note in the documentation of
 * the Go project's sumdb/note package, whose format C2SP's signed-note writes down.
 */
import crypto from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { checkpointText, noteIsSignedBy, parseCheckpoint, signNote, verifierKey } from '../../events/log/note.ts';
import { keyFromSeed } from '../../events/log/signing-key.ts';

const SEED = '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60';
const PUBLIC = 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a';

const NAME = 'EnochRoot';
const KEY = Buffer.from('ATtqJ7zOtqQtYqOo0CpvDXNlMhV3HeJDpjrASKGLWdop', 'base64').subarray(1);
const NOTE = `If you think cryptography is the answer to your problem,
then you don't know what your problem is.

— EnochRoot rwz+eBzmZa0SO3NbfRGzPCpDckykFXSdeX+MNtCOXm2/5n2tiOHp+vAF1aGrQ5ovTG01oOTGwnWLox33WWd1RvMc+QQ=
`;

describe('keys', () => {
  test('the seed of RFC 8032 section 7.1 test 1 gives its public key and signature', () => {
    const key = keyFromSeed(SEED);
    expect(key.publicKey).toBe(PUBLIC);
    expect(crypto.sign(null, Buffer.alloc(0), key.privateKey).toString('hex')).toBe(
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
    );
  });

  test('the published key has the published name for whoever checks', () => {
    expect(verifierKey(NAME, KEY)).toBe('EnochRoot+af0cfe78+ATtqJ7zOtqQtYqOo0CpvDXNlMhV3HeJDpjrASKGLWdop');
  });
});

describe('signed notes', () => {
  test('the published note is signed by the published key', () => {
    expect(noteIsSignedBy(NOTE, NAME, KEY)).toBe(true);
  });

  test.each([
    ['another text', NOTE.replace('problem is.', 'problem was.'), NAME, KEY],
    ['another name', NOTE, 'Enoch', KEY],
    ['another key', NOTE, NAME, Buffer.from(PUBLIC, 'hex')],
    ['a changed signature', NOTE.replace('rwz+eBzm', 'rwz+eBzn'), NAME, KEY],
    ['a changed key id', NOTE.replace('rwz+', 'rwy+'), NAME, KEY],
    ['no signature', NOTE.slice(0, NOTE.indexOf('—')), NAME, KEY],
    ['no blank line', NOTE.replace('\n\n', '\n'), NAME, KEY],
  ])('a note with %s is not', (_, note, name, key) => {
    expect(noteIsSignedBy(note, name, key)).toBe(false);
  });

  test('a signature by somebody else beside it does no harm', () => {
    const other = signNote('', 'someone', keyFromSeed(SEED).privateKey, Buffer.from(PUBLIC, 'hex')).trimStart();
    expect(noteIsSignedBy(NOTE + other, NAME, KEY)).toBe(true);
  });
});

describe('checkpoints', () => {
  test('are laid out as the example of C2SP tlog-checkpoint', () => {
    const text = 'example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n';
    const read = parseCheckpoint(`${text}\n— example.com/behind-the-sofa Az3g\n`);
    expect(read?.origin).toBe('example.com/behind-the-sofa');
    expect(read?.size).toBe(20_852_163);
    expect(read && checkpointText(read)).toBe(text);
  });

  test.each([
    ['a size with a leading zero', 'origin\n01\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n'],
    ['a root of another length', 'origin\n1\nCsUY\n'],
    ['no origin', '\n1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n'],
    ['nothing in it', ''],
  ])('with %s are none', (_, text) => {
    expect(parseCheckpoint(text)).toBeUndefined();
  });
});
