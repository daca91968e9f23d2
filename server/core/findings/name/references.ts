import { groupBy } from '../../group.ts';
import type { End } from '../../model/link.ts';
import type { Cable } from '../../model/machine.ts';
import type { Machine } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import { mapEach } from '../../reuse/map-each.ts';
import { type Node, type Scalar, type Span, spanWithin, valueUnder } from '../../syntax/node.ts';
import { endsInQuestion, isUnknownPart } from './ends-in-question.ts';

/** A place that names a part, and what for. */
export interface Mention {
  readonly name: string;
  readonly at: Span;
  readonly use: 'link' | 'screen' | 'drive' | 'motor' | 'switch' | 'spindle' | 'handwheel';
}

/** A terminal that is named with its part: the end of a link, or where a screen is joined. */
export interface TerminalMention {
  readonly part: string;
  readonly terminal: string;
  readonly at: Span;
}

/** Every place of a machine that names a part, in the order of the sections. Each end of a link counts once. */
export const mentionsOf = fact('machine', (machine: Machine): readonly Mention[] => {
  return [...inWiring(machine), ...inAxes(machine), ...inSections(machine)];
});

/** Every place outside the links that names a part. */
export const mentionsBesideLinks = fact('machine', (machine: Machine): readonly Mention[] => [
  ...inScreens(machine),
  ...inAxes(machine),
  ...inSections(machine),
]);

/** The names that are mentioned but stand for no part, each with all its mentions. */
export const unknownParts = fact(
  'machine',
  (machine: Machine): readonly { readonly name: string; readonly mentions: readonly Mention[] }[] => {
    const isUnknown = ({ name }: Mention) => isUnknownPart(machine, name);
    const isAny =
      endsInQuestion(machine).some((link) => link?.isOfUnknownPart) ||
      mentionsBesideLinks(machine).some(isUnknown);
    if (!isAny) return [];
    const unknown = mentionsOf(machine).filter(isUnknown);
    return [...groupBy(unknown, ({ name }) => name)].map(([name, mentions]) => ({ name, mentions }));
  },
);

/**
 * Every place that names a terminal with its part.
 * @param isWanted of which parts, where not of all
 */
export function terminalMentions(
  machine: Machine,
  isWanted: (part: string) => boolean = () => true,
): TerminalMention[] {
  const ends = new Set<End>();
  for (const { from, to } of machine.links) {
    if (isWanted(from.part)) ends.add(from);
    if (isWanted(to.part)) ends.add(to);
  }
  return [
    ...[...ends].map(({ part, terminal, terminalAt }) => ({ part, terminal, at: terminalAt })),
    ...screenMentions(machine).filter(({ part }) => isWanted(part)),
  ];
}

/** The terminals at which screens of cables are joined. */
export function screenMentions({ cables }: Machine): readonly TerminalMention[] {
  return mentionsInScreens(cables).flat();
}

const mentionsInScreens = mapEach((cable: Cable): readonly TerminalMention[] =>
  screenOf(cable).flatMap(({ scalar, dot }) => {
    const terminal = scalar.text.slice(dot + 1);
    if (terminal === '') return [];
    const at = spanWithin(scalar, dot + 1, scalar.text.length);
    return [{ part: scalar.text.slice(0, dot), terminal, at }];
  }),
);

function inWiring(machine: Machine): Mention[] {
  const ends = new Set(machine.links.flatMap(({ from, to }) => [from, to]));
  return [
    ...[...ends].map(({ part, partAt }): Mention => ({ name: part, at: partAt, use: 'link' })),
    ...inScreens(machine),
  ];
}

function inScreens(machine: Machine): Mention[] {
  return machine.cables.flatMap(screenOf).map(({ scalar, dot }) => ({
    name: scalar.text.slice(0, dot),
    at: spanWithin(scalar, 0, dot),
    use: 'screen',
  }));
}

/** Where the screen of a cable is joined, `part.terminal`; one without a dot is the shape's business. */
function screenOf({ fields }: Cable): { scalar: Scalar; dot: number }[] {
  const scalar = valueUnder(fields.node, 'screen');
  const dot = scalar?.kind === 'scalar' ? scalar.text.indexOf('.') : -1;
  return scalar?.kind === 'scalar' && dot > 0 ? [{ scalar, dot }] : [];
}

function inAxes(machine: Machine): Mention[] {
  return [...machine.axes.values()].flatMap(({ drives, motors, fields }) => {
    const switches = fields.child('switches').node?.pairs ?? [];
    return [
      ...drives.map((scalar) => mention(scalar, 'drive')),
      ...motors.map((scalar) => mention(scalar, 'motor')),
      ...switches.map(({ value }) => mention(value, 'switch')),
    ].flat();
  });
}

function inSections({ fields }: Machine): Mention[] {
  const spindle = fields.child('spindle').node;
  const wheel = fields.child('handwheel').node;
  return [
    ...mention(valueUnder(spindle, 'converter'), 'spindle'),
    ...mention(valueUnder(spindle, 'motor'), 'spindle'),
    ...mention(valueUnder(wheel, 'part'), 'handwheel'),
  ];
}

function mention(node: Node | undefined, use: Mention['use']): Mention[] {
  if (node?.kind !== 'scalar') return [];
  return [{ name: node.text, at: spanWithin(node, 0, node.text.length), use }];
}
