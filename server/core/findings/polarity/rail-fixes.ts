import type { MachineAnalysis } from '../../analysis.ts';

import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { say } from '../../language/say.ts';
import type { End } from '../../model/link.ts';
import type { Fix } from '../../problem.ts';
import { isAlone, moveEnd } from '../common/link-ends.ts';

/** How many terminals are tried in the place of one. */
const MOST = 4;

/**
 * Moves the supply side of what acts on an input to the other pole of the input's own supply: a switch that joins an
 * input to the side on which it rests anyhow does nothing.
 */
export function moveToOtherRail(analysis: MachineAnalysis, input: SolvedInput): Fix[] {
  const { board } = input.solution.circuit;
  const rails = new Set<number>();
  for (const place of input.group.elements) {
    if (board.elements[place]?.mover === undefined || board.elements[place]?.at.circuit.kind === 'sensor')
      continue;
    for (const end of board.endsOf[place] ?? []) {
      const node = board.nodeOf[end] ?? -1;
      if (board.rails.holds.has(node)) rails.add(node);
    }
  }
  const targets = otherPoles(input, rails);
  const movable = [...rails].flatMap((rail) =>
    board.terminalsOn(rail).flatMap((terminal) => {
      const id = board.conductors.terminals[terminal] ?? '';
      const isOwn = input.group.elements.some((place) => board.elements[place]?.ends.includes(id));
      return isOwn ? linksAway(analysis, id) : [];
    }),
  );
  return movable.flatMap((end) => targets.flatMap((target) => wireTo(end, target)));
}

/** Moves what feeds a side that inputs share to the other pole of its supply. */
export function moveFeed(
  input: SolvedInput,
  { near, far }: { readonly near: End; readonly far: End },
): Fix[] {
  const { board } = input.solution.circuit;
  const rail = board.nodeOf[board.conductors.placeOf.get(near.id) ?? -1] ?? -1;
  return otherPoles(input, new Set([rail])).flatMap((target) => wireTo(far, target));
}

function wireTo(end: End, target: string): Fix[] {
  const edit = moveEnd(end, target);
  const from = end.id;
  return edit ? [{ title: say`Wire it to ${target} instead of ${from}`, edits: [edit], safe: false }] : [];
}

/** The far ends of the links at a terminal of what acts, where each link is a text of its own. */
function linksAway(analysis: MachineAnalysis, terminal: string) {
  const links = analysis.nets.linksAt(terminal);
  return links.flatMap((link) => {
    const far = link.from.id === terminal ? link.to : link.from;
    return isAlone(analysis, link) && far.part !== terminal.slice(0, terminal.indexOf('.')) ? [far] : [];
  });
}

/** Terminals at the other pole of the supplies that stand on some rails, those of the input's own part first. */
function otherPoles(input: SolvedInput, rails: ReadonlySet<number>): string[] {
  const { board } = input.solution.circuit;
  const found: { terminal: string; isOwn: boolean }[] = [];
  for (const { at, plus, minus } of board.supplies) {
    for (const [here, there] of [
      [plus, minus],
      [minus, plus],
    ] as const) {
      if (!rails.has(board.nodeOf[here] ?? -1)) continue;
      const terminal = board.conductors.terminals[there] ?? '';
      found.push({ terminal, isOwn: at.part.name === input.at.part.name });
    }
  }
  found.sort((a, b) => Number(b.isOwn) - Number(a.isOwn));
  return found.slice(0, MOST).map(({ terminal }) => terminal);
}
