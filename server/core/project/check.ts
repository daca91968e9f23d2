import { say } from '../language/say.ts';
import { nearestName } from '../nearest.ts';
import type { Problem } from '../problem.ts';
import { canBeSilenced } from '../silence/settle.ts';
import { type Node, type Scalar, valueUnder } from '../syntax/node.ts';

/** Codes in a `.fettle.yaml` that no finding has, and those that cannot be silenced. */
export function checkCodes(root: Node | undefined, codes: readonly string[]): Problem[] {
  const known = [...codes, ...new Set(codes.map((code) => code.slice(0, code.indexOf('/'))))];
  return [...keysUnder(root, 'severities'), ...keysUnder(root, 'silence')].flatMap(({ key, section }) => {
    if (!known.includes(key.text)) return [unknown(key, known)];
    if (section === 'severities' || canBeSilenced(`${key.text}/`)) return [];
    return [{ code: 'silence/unknown-code', at: key, data: { typed: key.text, nearest: '', what: 'fixed' } }];
  });
}

function unknown(key: Scalar, known: readonly string[]): Problem {
  const nearest = nearestName(key.text, known) ?? '';
  const fixes =
    nearest === ''
      ? []
      : [{ title: say`Change to ${nearest}`, edits: [{ at: key, text: nearest }], safe: false }];
  return { code: 'silence/unknown-code', at: key, data: { typed: key.text, nearest, what: 'code' }, fixes };
}

function keysUnder(root: Node | undefined, section: string): { key: Scalar; section: string }[] {
  const map = valueUnder(root, section);
  return map?.kind === 'map' ? map.pairs.map(({ key }) => ({ key, section })) : [];
}
