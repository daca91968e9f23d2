import type { Analysis } from '../analysis.ts';
import { blockAt } from '../syntax/tree.ts';
import { isBroken } from '../syntax/yaml-block.ts';
import { closeContacts } from './close-contact.ts';
import { convertUnits } from './convert-unit.ts';
import { extractSheets } from './extract-sheet.ts';
import { inlineSheets } from './inline-sheet.ts';
import { makeCables } from './make-cable.ts';
import { recordStep } from './record-step.ts';
import { placeAt, type Refactoring } from './refactoring.ts';
import { sortParts } from './sort-parts.ts';
import { splitLinks } from './split-link.ts';

const ALL = [
  closeContacts,
  convertUnits,
  splitLinks,
  makeCables,
  extractSheets,
  inlineSheets,
  sortParts,
  recordStep,
];

/** What could be done at the cursor or with a selection, beside curing what is wrong. */
export function listRefactorings(analysis: Analysis, from: number, to: number): Refactoring[] {
  const block = blockAt(analysis.tree, from);
  if (!block || isBroken(block)) return [];
  const place = placeAt(analysis, from, to);
  return ALL.flatMap((find) => [...find(place)]);
}
