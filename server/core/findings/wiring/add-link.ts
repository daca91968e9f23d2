import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Fix } from '../../problem.ts';
import { valueUnder } from '../../syntax/node.ts';
import { addItem } from '../common/edits.ts';

/** Adds a link at the end of the wiring; undefined where there is no list to add it to. */
export function addLink({ tree }: MachineAnalysis, from: string, to: string): Fix | undefined {
  const link = `${from} -> ${to}`;
  const edit = addItem(tree, valueUnder(tree.root, 'wiring'), link);
  return edit && { title: say`Add ${link}`, edits: [edit], safe: false };
}
