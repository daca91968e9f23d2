import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { lengthOf } from '../model/link-wire.ts';
import type { Part } from '../model/machine.ts';
import { describeWire } from '../model/wire-text.ts';
import type { Link } from '../model/wiring.ts';
import { listSettings } from '../summary/settings/rows.ts';
import { valueToKeyIn } from '../summary/settings/section.ts';
import { type Changed, compareNamed } from './changed.ts';

/** What a part is, in the words that a comparison shows. */
export interface PartFacts {
  readonly sheet: string;
  readonly place: string;
  /** The text of its facts, so that a sheet that changed under the same name is noticed. */
  readonly facts: string;
}

/** Parts that were added, taken out, moved, or are another model. */
export function compareParts(before: MachineAnalysis, after: MachineAnalysis): Changed<PartFacts>[] {
  return compareNamed(
    partsOf(before),
    partsOf(after),
    ({ sheet, place, facts }) => `${sheet}\n${place}\n${facts}`,
  );
}

function partsOf({ machine, world }: MachineAnalysis): Map<string, PartFacts> {
  return new Map(
    [...machine.parts.values()].map((part) => [
      part.name,
      {
        sheet: part.sheetName?.text ?? say`facts written into the machine`,
        place: part.place ?? '',
        facts: factsOf(part, world),
      },
    ]),
  );
}

function factsOf({ sheetFile }: Part, world: MachineAnalysis['world']): string {
  const state = sheetFile === undefined ? undefined : world.file(sheetFile);
  return state?.kind === 'text' ? state.text : '';
}

/** What a link is, in the words that a comparison shows. */
export interface LinkFacts {
  readonly ends: string;
  readonly wire: string;
  readonly length: string;
  readonly label: string;
}

/** Links that were added, taken out, or have another wire, length or label. A link is known by its ends. */
export function compareLinks(before: MachineAnalysis, after: MachineAnalysis): Changed<LinkFacts>[] {
  return compareNamed(linksOf(before), linksOf(after), (link) => Object.values(link).join('\n'));
}

/** Several links may join the same two terminals; the second of them is another one. */
function linksOf({ machine }: MachineAnalysis): Map<string, LinkFacts> {
  const links = new Map<string, LinkFacts>();
  const counts = new Map<string, number>();
  for (const link of machine.links) {
    const ends = endsOf(link);
    const number = (counts.get(ends) ?? 0) + 1;
    counts.set(ends, number);
    const id = number === 1 ? ends : `${ends} (${number})`;
    links.set(id, {
      ends: id,
      wire: describeWire(link),
      length: lengthOf(link)?.text ?? '',
      label: [link.cable, link.label].filter((name) => name !== undefined).join(' '),
    });
  }
  return links;
}

/** Which end is written first makes no difference to a wire. */
function endsOf({ from, to }: Link): string {
  return [from, to]
    .map(({ part, terminal }) => `${part}.${terminal}`)
    .sort()
    .join(' – ');
}

/** Settings whose value to key in differs, by `part.setting`; those of parts that are gone need nobody. */
export function compareSettings(before: MachineAnalysis, after: MachineAnalysis): Changed<string>[] {
  return compareNamed(settingsOf(before), settingsOf(after), (value) => value);
}

function settingsOf(analysis: MachineAnalysis): Map<string, string> {
  const rows = listSettings(analysis).flatMap((part) => part.rows);
  return new Map(
    rows.flatMap((row) => {
      const value = valueToKeyIn(row);
      return value === '' ? [] : [[`${row.part}.${row.setting}`, value] as const];
    }),
  );
}
