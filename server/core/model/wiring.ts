import type { Problem } from '../problem.ts';
import { type Fields, fieldsOf } from '../shape/fields.ts';
import { cableShape, linkShape } from '../shape/shapes.ts';
import { type Node, type Scalar, type Span, valueUnder } from '../syntax/node.ts';
import { readColour, readWire } from '../units/index.ts';
import { type End, type LinkText, readLinkText } from './link.ts';
import type { Cable } from './machine.ts';

/** One conductor from one terminal to another. */
export interface Link {
  readonly from: End;
  readonly to: End;
  /** The text of the whole link, which may hold several conductors. */
  readonly at: Scalar;
  readonly wire: Wiring;
  readonly label: string | undefined;
  readonly cable: string | undefined;
}

/** What is said of the conductor, in the link itself or in its cable. */
export interface Wiring {
  readonly colour: { readonly text: string; readonly at: Span } | undefined;
  readonly own: Fields | undefined;
  readonly shared: Fields | undefined;
}

export interface WiringText {
  readonly links: readonly Link[];
  readonly cables: readonly Cable[];
  readonly problems: readonly Problem[];
}

/** Reads the wiring list: plain links, links with particulars, and cables that hold several. */
export function readWiring(node: Node | undefined): WiringText {
  const links: Link[] = [];
  const cables: Cable[] = [];
  const problems: Problem[] = [];
  const seen = new Set<Scalar>();
  const addLink = (scalar: Scalar, own: Fields | undefined, cable: Cable | undefined) => {
    const link = readLinkText(scalar);
    if (link.problem) problems.push(link.problem);
    else if (link.wire) problems.push(...checkWireText(link.wire));
    // What an alias repeats is a link of its own each time.
    const made = seen.has(scalar) ? makeLinks(scalar, link, own, cable) : keepLinks(scalar, link, own, cable);
    seen.add(scalar);
    for (const each of made) links.push(each);
  };
  for (const item of node?.kind === 'list' ? node.items : []) {
    if (item?.kind === 'scalar') addLink(item, undefined, undefined);
    const cable = readCable(item);
    if (cable) cables.push(cable);
    for (const { scalar, own } of cable ? linksIn(cable) : linkIn(item)) addLink(scalar, own, cable);
  }
  return { links, cables, problems };
}

/** The links of a text, as they were made last. */
const kept = new WeakMap<Scalar, readonly Link[]>();

/** The links of one text. They stay the same objects while nothing about them changes, wherever they move to. */
function keepLinks(
  at: Scalar,
  text: LinkText,
  own: Fields | undefined,
  cable: Cable | undefined,
): readonly Link[] {
  const known = kept.get(at);
  const wire = known?.[0]?.wire;
  if (known && wire && wire.own?.node === own?.node && wire.shared?.node === cable?.fields.node) return known;
  const links = makeLinks(at, text, own, cable);
  kept.set(at, links);
  return links;
}

function makeLinks(
  at: Scalar,
  { from, to, wire }: LinkText,
  own: Fields | undefined,
  cable: Cable | undefined,
): readonly Link[] {
  if (!from) return [];
  return to.map((end) => ({
    from,
    to: end,
    at,
    wire: { colour: wire, own, shared: cable?.fields },
    label: own?.text('label')?.value,
    cable: cable?.name,
  }));
}

/** What stands behind a link is a colour, or a wire with its size. */
function checkWireText({ text, at }: { readonly text: string; readonly at: Span }): Problem[] {
  const { problems } = /\d/.test(text) ? readWire(text) : readColour(text);
  return problems.map(({ code, from, to, data }) => ({
    code,
    at: { block: at.block, from: Math.min(at.from + from, at.to), to: Math.min(at.from + to, at.to) },
    data: { key: 'wire', ...data },
  }));
}

const keptCables = new WeakMap<Node, Cable>();

function readCable(item: Node | undefined): Cable | undefined {
  const key = valueUnder(item, 'cable');
  if (!item || key?.kind !== 'scalar') return undefined;
  const cable = keptCables.get(item) ?? { name: key.text, key, fields: fieldsOf(item, cableShape) };
  keptCables.set(item, cable);
  return cable;
}

interface LinkItem {
  readonly scalar: Scalar;
  readonly own: Fields | undefined;
}

function linkIn(item: Node | undefined): LinkItem[] {
  const scalar = valueUnder(item, 'link');
  return scalar?.kind === 'scalar' ? [{ scalar, own: fieldsOf(item, linkShape) }] : [];
}

function linksIn(cable: Cable): LinkItem[] {
  const list = valueUnder(cable.fields.node, 'links');
  const items = list?.kind === 'list' ? list.items : [];
  return items.flatMap((item) =>
    item?.kind === 'scalar' ? [{ scalar: item, own: undefined }] : linkIn(item),
  );
}
