import { AXES, type Leaf } from '../../../schemas/index.ts';
import { type End, readLinkText } from '../model/link.ts';
import { terminalId } from '../model/terminal-id.ts';
import { pick } from '../pick.ts';
import { type Scalar, spanWithin } from '../syntax/node.ts';
import type { Mention, NameKind } from './mention.ts';

/** Where a value stands: under which key, and in whose facts. */
export interface Where {
  readonly key: string;
  readonly owner: string | undefined;
  /** True among the groups of `terminals:`, which define what other lists only use. */
  readonly definesTerminals: boolean;
}

/** Free texts that are names of their own. */
const NAMING: Readonly<Record<string, NameKind>> = { cable: 'cable', label: 'label' };
const letters: readonly string[] = AXES;

/** The names in a single value. */
export function mentionsInLeaf(scalar: Scalar, leaf: Leaf, where: Where): Mention[] {
  const { owner } = where;
  const one = (kind: NameKind, access: Mention['access'] = 'use', of = owner): Mention[] => [
    { kind, text: scalar.text, at: spanWithin(scalar, 0, scalar.text.length), access, owner: of },
  ];
  switch (leaf.kind) {
    case 'name':
      return one(leaf.of, 'use', leaf.of === 'sheet' || leaf.of === 'circuit' ? owner : undefined);
    case 'terminal':
      if (leaf.of === 'machine') return mentionsInEnd(endOf(scalar));
      return one('terminal', where.definesTerminals ? 'definition' : 'use');
    case 'link': {
      const { from, to } = readLinkText(scalar);
      return [from, ...to].flatMap(mentionsInEnd);
    }
    case 'role':
      return axisInRole(scalar);
    case 'text': {
      const kind = pick(NAMING, where.key);
      return kind ? one(kind, 'definition', undefined) : [];
    }
    default:
      return [];
  }
}

function mentionsInEnd(end: End | undefined): Mention[] {
  if (!end) return [];
  return [
    { kind: 'part', text: end.part, at: end.partAt, access: 'use', owner: undefined },
    { kind: 'terminal', text: end.terminal, at: end.terminalAt, access: 'use', owner: end.part },
  ];
}

/** A lone `part.terminal`, as a screen has it. */
export function endOf(scalar: Scalar): End | undefined {
  const dot = scalar.text.indexOf('.');
  if (dot <= 0 || dot === scalar.text.length - 1) return undefined;
  const [part, terminal] = [scalar.text.slice(0, dot), scalar.text.slice(dot + 1)];
  return {
    part,
    terminal,
    id: terminalId(part, terminal),
    at: scalar,
    partAt: spanWithin(scalar, 0, dot),
    terminalAt: spanWithin(scalar, dot + 1, scalar.text.length),
  };
}

/** The letter in `limit X far`. The signals `handwheel A` and `handwheel B` are no axes. */
function axisInRole(scalar: Scalar): Mention[] {
  if (/^\s*handwheel\b/.test(scalar.text)) return [];
  for (const { 0: word, index } of scalar.text.matchAll(/(?<=\s)[A-Z](?=\s|$)/g)) {
    if (!letters.includes(word)) continue;
    return [
      { kind: 'axis', text: word, at: spanWithin(scalar, index, index + 1), access: 'use', owner: undefined },
    ];
  }
  return [];
}
