import type { Analysis } from '../analysis.ts';
import { addEntry, lineEnd } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import type { Fix } from '../problem.ts';
import { valueUnder } from '../syntax/node.ts';
import { rangeOf, readTree, type Tree } from '../syntax/tree.ts';

/** How a finding is silenced for a whole project: in its `.fettle.yaml`, which is made at the top where there is none. */
export function silenceProject({ file, project, world }: Analysis, code: string): Fix[] {
  const title = say`Silence ${code} for this project`;
  const state = project.file === undefined ? undefined : world.file(project.file);
  if (project.file !== undefined && state?.kind === 'text') {
    const change = addSilence(readTree(state.text), code);
    return change ? [{ title, edits: [], elsewhere: [{ file: project.file, ...change }], safe: false }] : [];
  }
  const made = { file: world.newProjectFile(file), text: `silence:\n  ${entryOf(code)}\n` };
  return [{ title, edits: [], newFiles: [made], safe: false }];
}

const entryOf = (code: string) => `${code}: no reason given`;

function addSilence(tree: Tree, code: string): { from: number; to: number; text: string } | undefined {
  const map = valueUnder(tree.root, 'silence');
  if (map?.kind === 'map') {
    const edit = addEntry(tree, map, entryOf(code));
    const range = edit && rangeOf(tree, edit.at);
    return range && edit && { ...range, text: edit.text };
  }
  // A key without a value, or one that is no map, is for a person to set right.
  if (map || (tree.root && tree.root.kind !== 'map') || /^silence\s*:/m.test(tree.text)) return undefined;
  const end = tree.text.length;
  const ending = lineEnd(tree);
  const start = tree.text.trim() === '' || tree.text.endsWith('\n') ? '' : ending;
  return { from: end, to: end, text: `${start}silence:${ending}  ${entryOf(code)}${ending}` };
}
