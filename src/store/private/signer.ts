import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign, verify } from 'node:crypto';
import { no, type Outcome, ok } from '../../core/said.js';
import type { IsSigned } from '../../log/tree/signed-head.js';
import type { Keys } from './keys.js';

/** Signs for this server (Ed25519, RFC 8032). */
export interface Signer {
  /** Public key, 32 bytes in hex. */
  readonly key: string;
  /** 64 bytes in hex. */
  readonly sign: (bytes: Uint8Array) => string;
}

const keyFile = 'head.key';

/** The server's signing key, made when there is none. */
export function openSigner(keys: Keys): Outcome<Signer> {
  const found = keys.read(keyFile);
  if (!found.ok) return found;
  if (found.value !== null) {
    try {
      return ok(signerOf(createPrivateKey(found.value)));
    } catch (error) {
      return no('lan.keys.failed', { file: keyFile, detail: error instanceof Error ? error.message : String(error) });
    }
  }
  const { privateKey } = generateKeyPairSync('ed25519');
  const kept = keys.write(keyFile, String(privateKey.export({ type: 'pkcs8', format: 'pem' })));
  return kept.ok ? ok(signerOf(privateKey)) : kept;
}

export function signerOf(privateKey: KeyObject): Signer {
  const { x = '' } = createPublicKey(privateKey).export({ format: 'jwk' });
  return {
    key: Buffer.from(x, 'base64url').toString('hex'),
    sign: (bytes) => sign(null, bytes, privateKey).toString('hex'),
  };
}

/** OpenSSL's check: no second form of a signature passes (RFC 8032, 5.1.7). */
export const isSigned: IsSigned = (bytes, signature, key) => {
  const x = Buffer.from(key, 'hex').toString('base64url');
  try {
    const publicKey = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' });
    return verify(null, bytes, publicKey, Buffer.from(signature, 'hex'));
  } catch {
    return false;
  }
};
