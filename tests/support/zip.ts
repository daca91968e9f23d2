/**
 * The names of the files in a zip archive, from its central directory (PKWARE APPNOTE 4.3.12 and 4.3.16).
 * @throws when the bytes are no zip archive
 */
export function listZip(bytes: Buffer): readonly string[] {
  const end = bytes.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  if (end < 0) throw new Error('no end of central directory: not a zip archive');
  const count = bytes.readUInt16LE(end + 10);
  let at = bytes.readUInt32LE(end + 16);
  return Array.from({ length: count }, () => {
    const nameLength = bytes.readUInt16LE(at + 28);
    const name = bytes.toString('utf8', at + 46, at + 46 + nameLength);
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
    return name;
  });
}
