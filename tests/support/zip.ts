import { inflateRawSync } from 'node:zlib';

interface Entry {
  readonly name: string;
  /** Where the file's own header begins. */
  readonly at: number;
  readonly packed: number;
  readonly isDeflated: boolean;
}

/** The entries of a zip archive, from its central directory (PKWARE APPNOTE 4.3.12 and 4.3.16). */
function listEntries(bytes: Buffer): readonly Entry[] {
  const end = bytes.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  if (end < 0) throw new Error('no end of central directory: not a zip archive');
  const count = bytes.readUInt16LE(end + 10);
  let at = bytes.readUInt32LE(end + 16);
  return Array.from({ length: count }, () => {
    const nameLength = bytes.readUInt16LE(at + 28);
    const entry = {
      name: bytes.toString('utf8', at + 46, at + 46 + nameLength),
      at: bytes.readUInt32LE(at + 42),
      packed: bytes.readUInt32LE(at + 20),
      isDeflated: bytes.readUInt16LE(at + 10) === 8,
    };
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
    return entry;
  });
}

/**
 * The names of the files in a zip archive.
 * @throws when the bytes are no zip archive
 */
export function listZip(bytes: Buffer): readonly string[] {
  return listEntries(bytes).map(({ name }) => name);
}

/**
 * The files in a zip archive by their names (local headers: PKWARE APPNOTE 4.3.7).
 * @throws when the bytes are no zip archive
 */
export function readZip(bytes: Buffer): ReadonlyMap<string, Buffer> {
  return new Map(
    listEntries(bytes).map(({ name, at, packed, isDeflated }) => {
      const from = at + 30 + bytes.readUInt16LE(at + 26) + bytes.readUInt16LE(at + 28);
      const content = bytes.subarray(from, from + packed);
      return [name, isDeflated ? inflateRawSync(content) : content];
    }),
  );
}
