import type { FileId, World } from '../world.ts';
import type { Source } from './mention.ts';
import { sheetsOf } from './name.ts';

/**
 * The machines and sheets of the workspace, and whatever sheets they use besides: those that ship, and those that lie
 * deeper than the workspace is looked through.
 * @returns the texts that are known, and the files that would have to be fetched for the others
 */
export function gatherWorkspace(
  world: World,
  open: (file: FileId, wants: FileId[]) => Source | undefined,
): { sources: readonly Source[]; wants: readonly FileId[] } {
  const wants: FileId[] = [];
  const found = world.definitions().flatMap((file) => open(file, wants) ?? []);
  const files = new Set([...world.definitions(), ...found.flatMap((source) => [...sheetsOf(source, wants)])]);
  const sources = [...files].flatMap((file) => open(file, wants) ?? []);
  const unknown = [...files].filter((file) => world.file(file) === undefined);
  return { sources, wants: [...new Set([...unknown, ...wants])] };
}

/** True for the files of sheets that ship with the tool. */
export function shippedFiles(world: World): ReadonlySet<FileId> {
  return new Set(world.library.map((name) => world.resolve('', name)));
}
