import type { Severity } from '../findings/rule.ts';
import type { Trees } from '../model/trees.ts';
import { type Fields, fieldsOf } from '../shape/fields.ts';
import { projectShape } from '../shape/shapes.ts';
import { type Node, type Scalar, valueUnder } from '../syntax/node.ts';
import type { FileId, World } from '../world.ts';

/** What holds for every definition in a folder: the nearest `.fettle.yaml` in it or above. */
export interface Project {
  /** Undefined where there is no such file. */
  readonly file: FileId | undefined;
  readonly severities: ReadonlyMap<string, Severity>;
  /** Codes and families that are not shown, each with its reason. */
  readonly silences: ReadonlyMap<string, string>;
  readonly conventions: Fields;
  /** Folders from the file, in which sheets are sought. */
  readonly sheetFolders: readonly string[];
}

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'hint'];

const byRoot = new WeakMap<Node, Project>();
/** Stands where no project is. */
export const NO_PROJECT: Project = readProject(undefined, undefined);

/** The project that a file belongs to. @param wants gets the files that have to be fetched to know it */
export function findProject(file: FileId, world: World, trees: Trees, wants: FileId[]): Project {
  for (const candidate of world.projectFiles(file)) {
    const state = world.file(candidate);
    if (!state) wants.push(candidate);
    if (state?.kind !== 'text') continue;
    const { root } = trees.read(candidate, state.text);
    if (!root) return { ...NO_PROJECT, file: candidate };
    let project = byRoot.get(root);
    if (!project) {
      project = readProject(candidate, root);
      byRoot.set(root, project);
    }
    return project;
  }
  return NO_PROJECT;
}

function readProject(file: FileId | undefined, root: Node | undefined): Project {
  const fields = fieldsOf(root, projectShape);
  const folders = valueUnder(root, 'sheets');
  return {
    file,
    severities: new Map(
      scalarsUnder(root, 'severities').flatMap(([key, value]) => {
        const severity = SEVERITIES.find((each) => each === value?.text);
        return severity ? [[key.text, severity]] : [];
      }),
    ),
    silences: new Map(scalarsUnder(root, 'silence').map(([key, value]) => [key.text, value?.text ?? ''])),
    conventions: fields.child('conventions'),
    sheetFolders: (folders?.kind === 'list' ? folders.items : []).flatMap((item) =>
      item?.kind === 'scalar' ? [item.text] : [],
    ),
  };
}

function scalarsUnder(root: Node | undefined, key: string): [Scalar, Scalar | undefined][] {
  const map = valueUnder(root, key);
  return (map?.kind === 'map' ? map.pairs : []).map((pair) => [
    pair.key,
    pair.value?.kind === 'scalar' ? pair.value : undefined,
  ]);
}

/** What a project says of a finding: by its code, or else by its family. */
export function sayOf<T>(words: ReadonlyMap<string, T>, code: string): T | undefined {
  return words.get(code) ?? words.get(code.slice(0, code.indexOf('/')));
}
