import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { type Machine, partsOf } from '../../../model/resolve.ts';
import { nearestName } from '../../../nearest.ts';
import type { Fix } from '../../../problem.ts';
import { fact } from '../../../reuse/fact.ts';
import { factKeys } from '../../../reuse/fact-index.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { pairOf, valueUnder } from '../../../syntax/node.ts';
import { removeEntry } from '../../common/edits.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { findUnearthed } from '../../safety/unearthed.ts';
import { mentionsBesideLinks, unknownParts } from '../references.ts';

export const rule: Rule = {
  code: 'name/unused-part',
  severity: 'hint',
  title: later`A part is neither wired nor named anywhere`,
  find: findUnused,
  say: (data) =>
    say`${word(data, 'name')} is not wired, and no axis, spindle or handwheel names it. Wire it, or remove it.`,
};

function* findUnused(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const { machine } = analysis;
  const used = new Set(mentionsBesideLinks(machine).map(({ name }) => name));
  // A machine that has just been begun has nothing but parts.
  if ((used.size === 0 && machine.links.length === 0) || hasUnreadLink(analysis)) return;
  const unwired = unwiredParts(machine).filter((part) => part !== undefined);
  if (unwired.length === 0) return;
  // A name that is misspelt elsewhere probably means one of the parts that seem unused.
  const meant = new Set(unknownParts(machine).map(({ name }) => nearestName(name, machine.parts.keys())));
  // A frame that lacks its earth wire has nothing else that could be wired.
  const bare = new Set(
    findUnearthed(analysis)
      .flat()
      .map(({ part }) => part),
  );
  for (const part of unwired) {
    if (used.has(part.name) || meant.has(part.name) || !part.sheet || bare.has(part)) continue; // a part without facts cannot be wired yet
    yield {
      at: part.key,
      data: { name: part.name },
      get fixes() {
        return removalOf(analysis, part.name);
      },
    };
  }
}

/** At the places of the parts; undefined for those at which a link ends. */
const unwiredParts = factOver('machine', partsOf, (machine: Machine, part): Part | undefined =>
  isWired.get(machine, part.name) ? undefined : part,
);

/** By the name of a part: true where a link ends there. */
const isWired = factKeys(
  'machine',
  ({ links }: Machine) => links,
  ({ from, to }) => [from.part, to.part],
);

const hasUnreadLink = fact('analysis', ({ problems }: MachineAnalysis): boolean =>
  problems.some(({ code }) => code === 'shape/link'),
);

function removalOf({ tree }: MachineAnalysis, name: string): Fix[] {
  const pair = pairOf(valueUnder(tree.root, 'parts'), name);
  const edit = pair && removeEntry(tree, pair);
  return edit ? [{ title: say`Remove ${name}`, edits: [edit], safe: false }] : [];
}
