import type { Given } from '../shape/fields.ts';
import type { FileId } from '../world.ts';
import type { Machine } from './resolve.ts';

/** Which standard the colours of the wires follow, as the machine says or else its project, and in which file. */
export function wireColours({
  file,
  fields,
  project,
}: Machine): (Given<string> & { readonly file: FileId }) | undefined {
  const own = fields.child('conventions').text('wire-colours');
  if (own) return { ...own, file };
  const given = project.conventions.text('wire-colours');
  return given && project.file !== undefined ? { ...given, file: project.file } : undefined;
}
