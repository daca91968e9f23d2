import type { Part } from '../../model/machine.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Element } from './element.ts';
import { makeElement } from './elements.ts';
import { electricalSettings } from './same.ts';
import type { Wired } from './wired.ts';

/** The elements of one part, and what they were made from. */
interface PartElements {
  readonly part: Part;
  readonly settings: string;
  readonly elements: readonly Element[];
}

/** The elements of all parts, in the order of the machine. */
export interface Elements {
  readonly byPart: ReadonlyMap<string, PartElements>;
  readonly all: readonly Element[];
}

/**
 * Makes the elements of all parts.
 * @param before those of an earlier version; a part with the same sheet and the same electrical settings keeps its own
 */
export function makeElements(machine: Wired, before?: Elements): Elements {
  const byPart = new Map<string, PartElements>();
  let isSame = true;
  for (const { part, sheet } of partsWithSheets(machine)) {
    const known = before?.byPart.get(part.name);
    const settings = known?.part === part ? known.settings : electricalSettings(part);
    if (known && known.part.sheet === sheet && known.settings === settings) {
      byPart.set(part.name, known.part === part ? known : { ...known, part });
      continue;
    }
    isSame = false;
    const elements = [...sheet.circuits.values()].flatMap(
      (circuit) => makeElement(machine, { part, circuit }) ?? [],
    );
    byPart.set(part.name, { part, settings, elements });
  }
  const all =
    before && isSame && byPart.size === before.byPart.size && isSameOrder(byPart, before.byPart)
      ? before.all
      : [...byPart.values()].flatMap(({ elements }) => elements);
  return { byPart, all };
}

function isSameOrder(a: ReadonlyMap<string, unknown>, b: ReadonlyMap<string, unknown>): boolean {
  const names = b.keys();
  for (const name of a.keys()) if (names.next().value !== name) return false;
  return true;
}
