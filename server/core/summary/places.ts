import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { thingAt } from '../features/thing.ts';
import { findAll } from '../findings/find.ts';
import { numberOf } from '../model/link-number.ts';
import type { Span } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';
import { axisId, linkId, partId, settingId, terminalPlaceId } from './place-ids.ts';

export * from './place-ids.ts';

/** Where in the machine's text the thing with this id stands; undefined when it is nowhere. */
export function placeOf(analysis: Analysis, id: string): Span | undefined {
  if (analysis.kind !== 'machine') return undefined;
  const colon = id.indexOf(':');
  const name = id.slice(colon + 1);
  switch (id.slice(0, colon)) {
    case 'part':
    case 'chart':
    case 'supply':
      return analysis.machine.parts.get(name)?.key;
    case 'axis':
      return analysis.machine.axes.get(name)?.key;
    case 'finding':
      return findAll(analysis)[Number(name)]?.at;
    case 'link':
      return analysis.machine.links[Number(name) - 1]?.at;
    case 'terminal':
      return terminalPlace(analysis, name);
    case 'setting':
      return settingPlace(analysis, name);
    default:
      return undefined;
  }
}

/** A terminal stands in the text where its first link ends; one that is not wired, at its part. */
function terminalPlace({ machine, nets }: MachineAnalysis, id: string): Span | undefined {
  const link = nets.linksAt(id)[0];
  if (!link) return machine.parts.get(id.slice(0, id.indexOf('.')))?.key;
  return link.from.id === id ? link.from.at : link.to.at;
}

/** A setting stands in the text where it is set; one that is as delivered, at its part. */
function settingPlace({ machine }: MachineAnalysis, id: string): Span | undefined {
  for (const part of machine.parts.values()) {
    if (!id.startsWith(`${part.name}.`)) continue;
    const name = id.slice(part.name.length + 1);
    if (part.assigned.has(name) || part.sheet?.settings.has(name))
      return part.assigned.get(name)?.value ?? part.key;
  }
  return undefined;
}

/** The id of the thing at an offset, for marking it in the summary. */
export function idAt(analysis: Analysis, offset: number): string | undefined {
  if (analysis.kind !== 'machine') return undefined;
  const { thing, location } = thingAt(analysis, offset);
  switch (thing?.kind) {
    case 'part':
      return partId(thing.name);
    case 'terminal':
      return terminalPlaceId(thing.part, thing.terminal);
    case 'axis':
      return axisId(thing.name);
    case 'setting':
      return settingId(thing.part.name, thing.setting.name);
    default: {
      const link = analysis.machine.links.find(
        (each) => location.scalar === each.at || covers(analysis, each.at, offset),
      );
      return link ? linkId(numberOf(analysis.machine, link)) : entryId(location.steps[0], location.steps[1]);
    }
  }
}

function covers(analysis: MachineAnalysis, at: Span, offset: number): boolean {
  const range = rangeOf(analysis.tree, at);
  return range !== undefined && range.from <= offset && offset <= range.to;
}

type Step = Parameters<typeof nameOfStep>[0];

/** Anywhere inside a part's or an axis' entry means that part or axis. */
function entryId(section: Step, entry: Step): string | undefined {
  const name = nameOfStep(entry);
  if (name === undefined) return undefined;
  if (nameOfStep(section) === 'parts') return partId(name);
  return nameOfStep(section) === 'axes' ? axisId(name) : undefined;
}

function nameOfStep(
  step: ReturnType<typeof thingAt>['location']['steps'][number] | undefined,
): string | undefined {
  return step?.kind === 'pair' ? step.pair.key.text : undefined;
}
