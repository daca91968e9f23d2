import { type Machine, partsWithSheets } from '../../model/resolve.ts';
import type { Sheet } from '../../model/sheet.ts';
import type { Element } from './element.ts';
import { makeElement } from './elements.ts';
import { electricalSettings } from './same.ts';

/** The elements of one part, and what they were made from. */
interface PartElements {
  readonly sheet: Sheet;
  readonly settings: string;
  readonly elements: readonly Element[];
}

/** By the name of the part, in the order of the machine. */
export type ElementsByPart = ReadonlyMap<string, PartElements>;

/**
 * Makes the elements of all parts.
 * @param before those of an earlier version; a part with the same sheet and the same electrical settings keeps its own
 */
export function makeElements(machine: Machine, before?: ElementsByPart): ElementsByPart {
  const made = new Map<string, PartElements>();
  for (const { part, sheet } of partsWithSheets(machine)) {
    const settings = electricalSettings(part);
    const known = before?.get(part.name);
    if (known?.sheet === sheet && known.settings === settings) made.set(part.name, known);
    else {
      const elements = [...sheet.circuits.values()].flatMap(
        (circuit) => makeElement(machine, { part, circuit }) ?? [],
      );
      made.set(part.name, { sheet, settings, elements });
    }
  }
  return made;
}
