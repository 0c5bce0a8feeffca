/** A certificate for 127.0.0.1 and localhost that signs itself, made with what Node has: X.509 written out in DER. */
import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { folder } from '../../events/a-book.ts';

const der = (tag: number, ...parts: readonly Uint8Array[]): Buffer => {
  const body = Buffer.concat(parts);
  const size = body.length;
  const length = size < 128 ? [size] : size < 256 ? [0x81, size] : [0x82, size >> 8, size & 255];
  return Buffer.concat([Buffer.from([tag, ...length]), body]);
};
const list = (...parts: readonly Uint8Array[]) => der(0x30, ...parts);
const set = (...parts: readonly Uint8Array[]) => der(0x31, ...parts);
const hex = (text: string) => Buffer.from(text, 'hex');
const text = (tag: number, value: string) => der(tag, Buffer.from(value));
const object = (value: string) => der(0x06, hex(value));

const ECDSA_SHA256 = object('2a8648ce3d040302');
const COMMON_NAME = object('550403');
const ALTERNATIVE_NAME = object('551d11');
const CONSTRAINTS = object('551d13');
const TRUE = hex('0101ff');

export interface Pem {
  readonly cert: string;
  readonly key: string;
  /** The certificate itself, for whoever is to trust it. */
  readonly trusted: string;
}

/** Writes both files into a folder that goes with the test. */
export const aCertificate = (): Pem => {
  const { privateKey, publicKey } = crypto.generateKeyPairSync('ec', { namedCurve: 'prime256v1' });
  const name = list(set(list(COMMON_NAME, text(0x0c, 'localhost'))));
  const names = list(text(0x82, 'localhost'), der(0x87, Uint8Array.of(127, 0, 0, 1)));
  const extensions = list(list(ALTERNATIVE_NAME, der(0x04, names)), list(CONSTRAINTS, TRUE, der(0x04, list(TRUE))));
  const body = list(
    der(0xa0, hex('020102')),
    der(0x02, Buffer.concat([Uint8Array.of(1), crypto.randomBytes(8)])),
    list(ECDSA_SHA256),
    name,
    list(text(0x17, '200101000000Z'), text(0x17, '491231235959Z')),
    name,
    publicKey.export({ type: 'spki', format: 'der' }),
    der(0xa3, extensions),
  );
  const signature = crypto.sign('sha256', body, privateKey);
  const whole = list(body, list(ECDSA_SHA256), der(0x03, Uint8Array.of(0), signature));
  const lines = whole.toString('base64').match(/.{1,64}/g) ?? [];
  const trusted = ['-----BEGIN CERTIFICATE-----', ...lines, '-----END CERTIFICATE-----', ''].join('\n');
  const place = folder();
  const pem = { cert: path.join(place, 'cert.pem'), key: path.join(place, 'key.pem'), trusted };
  fs.writeFileSync(pem.cert, trusted);
  fs.writeFileSync(pem.key, privateKey.export({ type: 'pkcs8', format: 'pem' }));
  return pem;
};
