import type { Project } from '../project/project.ts';
import type { Span } from '../syntax/node.ts';
import type { Tree } from '../syntax/tree.ts';
import type { FileId, World } from '../world.ts';

/** What can be called by a name. A switch is a part; a sheet is called by its file. */
export type NameKind =
  | 'part'
  | 'terminal'
  | 'circuit'
  | 'setting'
  | 'cable'
  | 'label'
  | 'axis'
  | 'sheet'
  | 'anchor'
  | 'title';

/** One place in a text that names something. */
export interface Mention {
  readonly kind: NameKind;
  /** The name as it is understood; for a sheet the path that is written. */
  readonly text: string;
  readonly at: Span;
  /** The name is defined here, what it names is given a value here, or it is only used. */
  readonly access: 'definition' | 'assignment' | 'use';
  /** The part that a terminal, circuit, setting or sheet belongs to; undefined for the names of a file itself. */
  readonly owner: string | undefined;
}

/** One version of one text in its world. Every analysis is one; names need no more than this. */
export interface Source {
  readonly file: FileId;
  readonly tree: Tree;
  readonly world: World;
  /** What holds for all definitions of its folder. */
  readonly project: Project;
}
