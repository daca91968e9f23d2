import { later, said, say } from '../../language/say.ts';
import type { Drawing, DrawnLink, Group } from './drawing.ts';

/** The groups in the order in which they are offered, with their names. */
export const GROUPS: readonly (readonly [group: Group, name: string])[] = [
  ['power', later`Power`],
  ['axes', later`Axes`],
  ['inputs', later`Inputs`],
  ['spindle', later`Spindle`],
];

/** The part of a drawing that one group of links makes up: these links, and of each part the terminals that they join. */
export const filterDrawing = (drawing: Drawing, group: Group): Drawing =>
  filterLinks(drawing, (link) => link.group === group);

/** The part of a drawing that some of its links make up, and of each part the terminals that they join. */
export function filterLinks(drawing: Drawing, isShown: (link: DrawnLink) => boolean): Drawing {
  const links = drawing.links.filter(isShown);
  const joined = new Set(links.flatMap(({ from, to }) => [from, to]));
  const parts = drawing.parts.flatMap((part) => {
    const terminals = part.terminals.filter(({ id }) => joined.has(id));
    return terminals.length > 0 ? [{ ...part, terminals }] : [];
  });
  return { ...drawing, parts, links };
}

/** A part of a drawing that is shown by itself, with its title. */
export interface DrawingView {
  /** Names it among the views of its drawing, the same in every language. */
  readonly id: string;
  readonly title: string;
  readonly drawing: Drawing;
}

/**
 * What a report shows of a drawing: the whole, and each group by itself where there are several. It has no zoom, so power
 * is cut in two where it has mains and low voltage.
 */
export function listViews(drawing: Drawing): readonly DrawingView[] {
  const everything = { id: 'everything', title: say`Everything`, drawing };
  const groups = groupsIn(drawing);
  if (groups.length < 2) return [everything];
  const views = new Map(
    groups.map(([group, title]) => [group, { id: group, title, drawing: filterDrawing(drawing, group) }]),
  );
  const power = views.get('power');
  const [mains, supplies] = power ? splitPower(power) : [];
  const rest = [views.get('spindle'), views.get('axes'), supplies, views.get('inputs')];
  return [everything, mains, ...rest].filter((view) => view !== undefined);
}

function splitPower(power: DrawingView): DrawingView[] {
  const isMains = ({ kind }: DrawnLink) => kind === 'mains' || kind === 'earth';
  const halves = [
    { id: 'mains-and-earth', title: say`Mains and earth`, drawing: filterLinks(power.drawing, isMains) },
    { id: 'supplies', title: say`Supplies`, drawing: filterLinks(power.drawing, (link) => !isMains(link)) },
  ];
  return halves.some(({ drawing }) => drawing.links.length === 0) ? [power] : halves;
}

/** The groups that a drawing has links of. */
export function groupsIn({ links }: Drawing): readonly (readonly [Group, string])[] {
  return GROUPS.filter(([group]) => links.some((link) => link.group === group)).map(([group, name]) => [
    group,
    said(name),
  ]);
}
