import type { MachineAnalysis } from '../analysis.ts';
import type { Board } from '../circuits/solve/board.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import type { SummaryItem } from './summary.ts';

interface Kept {
  readonly key: string;
  readonly items: SummaryItem[];
}

const kept = new WeakMap<Board, Map<string, Kept>>();

/**
 * Items that depend on the wiring alone, made once while it stays: the links with all that is written of them, the
 * parts with their sheets and places, those that have no sheet among them, and the mains. The same objects come back, so that they are not compared anew.
 */
export function keepWhileWired(
  analysis: MachineAnalysis,
  name: string,
  make: (analysis: MachineAnalysis) => SummaryItem[],
): SummaryItem[] {
  const { machine } = analysis;
  const { board } = circuitsOf(machine).solved;
  const byName = kept.get(board) ?? new Map<string, Kept>();
  kept.set(board, byName);
  const parts = [...machine.parts.values()].map(({ name, place, sheetName }) => [
    name,
    place,
    sheetName?.text,
  ]);
  const key = JSON.stringify([machine.fields.text('mains')?.value, parts]);
  const before = byName.get(name);
  if (before?.key === key) return before.items;
  const items = make(analysis);
  byName.set(name, { key, items });
  return items;
}
