import type { Analysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import { partsOf } from '../../model/resolve.ts';
import type { Sheet } from '../../model/sheet.ts';
import type { Node } from '../../syntax/node.ts';

/** A sheet whose text stands in the analysed file itself, where its mistakes can be marked. */
export interface OwnSheet {
  readonly sheet: Sheet;
  /** The map with the sheet's keys. */
  readonly node: Node | undefined;
  /** How it is called in a message: the part's name, or `this sheet`. */
  readonly name: string;
}

/** The sheets that stand in a file: the one that it is, or the facts that a machine gives of its parts. */
export function ownSheets(analysis: Analysis): OwnSheet[] {
  if (analysis.kind === 'part')
    return [{ sheet: analysis.sheet, node: analysis.tree.root, name: say`this sheet` }];
  if (analysis.kind !== 'machine') return [];
  return partsOf(analysis.machine).flatMap(({ name, node, sheet, sheetName }) =>
    sheet && !sheetName ? [{ sheet, node, name }] : [],
  );
}

/** The sheet of a part, unless the file that should be one says nothing that a sheet says: that is reported by itself. */
export function sheetOf({ sheet, sheetName }: Part): Sheet | undefined {
  const isEmpty = sheet && sheet.partClass === '' && sheet.terminals.size === 0 && sheet.circuits.size === 0;
  return sheetName && isEmpty ? undefined : sheet;
}
