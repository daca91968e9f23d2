import type { Given } from '../shape/fields.ts';
import { type Quantity, readWire, type Wire } from '../units/index.ts';
import type { Link } from './wiring.ts';

/** The conductor of a link: as its own `wire:` says, or the text behind it, or its cable; undefined where no size is given. */
export function wireOf(link: Link): Given<Wire> | undefined {
  const known = kept.get(link);
  if (known) return known.wire;
  const wire = readWireOf(link);
  kept.set(link, { wire });
  return wire;
}

/** By link, which stays the same object while its text does. */
const kept = new WeakMap<Link, { readonly wire: Given<Wire> | undefined }>();

function readWireOf({ wire }: Link): Given<Wire> | undefined {
  const own = wire.own?.wire('wire');
  if (own) return own;
  const { colour } = wire;
  const behind = colour && /\d/.test(colour.text) ? readWire(colour.text).value : undefined;
  if (colour && behind) return { value: behind, text: colour.text, at: colour.at };
  return wire.shared?.wire('wire');
}

/** How long the conductor of a link is: by itself, or as its cable. */
export function lengthOf({ wire }: Link): Given<Quantity> | undefined {
  return wire.own?.quantity('length') ?? wire.shared?.quantity('length');
}
