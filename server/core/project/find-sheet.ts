import type { FileId, World } from '../world.ts';
import type { Project } from './project.ts';

/** Where the path of a sheet is looked for: from the file that writes it, with what its project says. */
export interface SheetSearch {
  readonly file: FileId;
  readonly world: World;
  readonly project: Project;
}

/**
 * The file that the path of a sheet means: beside the file that names it or in the library; else in the folders that
 * the project names. @param wants gets the files that have to be fetched to know it
 */
export function findSheet(search: SheetSearch, path: string, wants: FileId[] = []): FileId {
  const { file, world } = search;
  const beside = world.resolve(file, path);
  const state = world.file(beside);
  if (!state) wants.push(beside);
  if (state?.kind !== 'missing') return beside;
  for (const there of inSheetFolders(search, path)) {
    const found = world.file(there);
    if (!found) wants.push(there);
    if (found?.kind === 'text') return there;
  }
  return beside;
}

/** What the path of a sheet would mean in each folder that the project names, in their order. */
export function inSheetFolders({ world, project }: Omit<SheetSearch, 'file'>, path: string): FileId[] {
  const { file, sheetFolders } = project;
  if (file === undefined) return [];
  return sheetFolders.map((folder) => world.resolve(file, `${folder.replace(/\/+$/, '')}/${path}`));
}
