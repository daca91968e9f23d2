import type { Part } from '../../model/machine.ts';
import type { Sheet } from '../../model/sheet.ts';
import type { Element } from './element.ts';
import { makeElement } from './elements.ts';
import type { Frame } from './frame.ts';
import { electricalSettings } from './same.ts';
import type { Wired } from './wired.ts';

/** The elements of one part, and what they were made from; where it has lost its sheet, the places that they had. */
interface PartElements {
  readonly part: Part | undefined;
  readonly settings: string;
  readonly elements: readonly (Element | undefined)[];
}

/** The elements of all parts, in the order of the machine. */
export interface Elements {
  readonly seats: Frame['seats'];
  readonly byPart: ReadonlyMap<string, PartElements>;
  readonly all: readonly (Element | undefined)[];
}

/**
 * Makes the elements of all parts.
 * @param frame where the parts have their places
 * @param before those of an earlier version; a part with the same sheet and the same electrical settings keeps its own
 */
export function makeElements(machine: Wired, { seats }: Frame, before?: Elements): Elements {
  const byPart = new Map<string, PartElements>();
  let isSame = before?.seats === seats;
  for (const { name, sheet, isFree } of seats) {
    const known = before?.byPart.get(name);
    const part = isFree ? undefined : machine.parts.get(name);
    const present = part ? makeOf(machine, part, sheet, known) : leaveFree(known);
    if (present.elements !== known?.elements) isSame = false;
    byPart.set(name, present);
  }
  if (before && isSame) return { seats, byPart, all: before.all };
  return { seats, byPart, all: [...byPart.values()].flatMap(({ elements }) => elements) };
}

function makeOf(machine: Wired, part: Part, sheet: Sheet, known: PartElements | undefined): PartElements {
  if (known?.part === part) return known;
  const settings = electricalSettings(part);
  if (known?.part?.sheet === sheet && known.settings === settings) return { ...known, part };
  const elements = [...sheet.circuits.values()].flatMap(
    (circuit) => makeElement(machine, { part, circuit }) ?? [],
  );
  return { part, settings, elements };
}

/** A seat is free only where the part was there before. */
function leaveFree(known: PartElements | undefined): PartElements {
  if (known && !known.part) return known;
  return { part: undefined, settings: '', elements: known?.elements.map(() => undefined) ?? [] };
}
