import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Link } from '../../model/wiring.ts';
import type { Fix } from '../../problem.ts';
import { startOfLine } from '../../syntax/lines.ts';
import { rangeOf } from '../../syntax/tree.ts';
import { nextLine, replaceRange } from '../common/edits.ts';

/** Takes a link away: its line, its item of a list, or of several ends on one line the one that it leads to. */
export function removeLink({ tree }: MachineAnalysis, link: Link): Fix | undefined {
  const [whole, end] = [rangeOf(tree, link.at), rangeOf(tree, link.to.at)];
  if (!whole || !end) return undefined;
  const { text } = tree;
  const hasOthers = text.slice(whole.from, whole.to).includes(',');
  const line = startOfLine(text, whole.from);
  const isAlone = !hasOthers && /^\s*- (?:\{ link: )?$/.test(text.slice(line, whole.from));
  const [from, to] = isAlone
    ? [line, nextLine(text, whole.to)]
    : withComma(text, hasOthers ? end : whole, hasOthers ? whole : { from: line, to: text.length });
  const edit = replaceRange(tree, from, to, '');
  const name = `${link.from.part}.${link.from.terminal} -> ${link.to.part}.${link.to.terminal}`;
  return edit && { title: say`Remove ${name}`, edits: [edit], safe: false };
}

interface Range {
  readonly from: number;
  readonly to: number;
}

/** A stretch with the comma that goes with it, the one behind it where there is one, inside other bounds. */
function withComma(text: string, { from, to }: Range, bounds: Range): [number, number] {
  const after = /^\s*,[^\S\n]*/.exec(text.slice(to, bounds.to));
  if (after) return [from, to + after[0].length];
  const before = /,\s*$/.exec(text.slice(bounds.from, from));
  return [from - (before?.[0].length ?? 0), to];
}
