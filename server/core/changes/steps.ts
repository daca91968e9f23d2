import type { MachineAnalysis } from '../analysis.ts';
import { listSteps } from '../commission/commission.ts';
import { expectedText, type Step } from '../commission/step.ts';
import { type Changed, compareNamed } from './changed.ts';
import type { LinkFacts, PartFacts } from './things.ts';

/**
 * Commissioning steps that a change touches: those that are new or gone, that expect something else, and those about
 * a part, a terminal or a setting at which something was changed.
 */
export function compareSteps(
  before: MachineAnalysis,
  after: MachineAnalysis,
  parts: readonly Changed<PartFacts>[],
  links: readonly Changed<LinkFacts>[],
  settings: readonly Changed<string>[],
): Changed<Step>[] {
  const set = new Set(settings.map(({ id }) => id));
  const touched = new Set([
    ...parts.map(({ id }) => id),
    ...links.flatMap(({ id }) => id.replace(/ \(\d+\)$/, '').split(' – ')),
  ]);
  const isTouched = ({ terminals, place, settings: own }: Step) =>
    own.some((setting) => set.has(setting)) ||
    terminals.some((terminal) => touched.has(terminal)) ||
    touched.has(place.replace(/^part:/, ''));
  const [old, now] = [byId(before), byId(after)];
  const different = new Set(compareNamed(old, now, wordsOf).map(({ id }) => id));
  return [...new Set([...old.keys(), ...now.keys()])]
    .map((id) => ({ id, before: old.get(id), after: now.get(id) }))
    .filter(
      (step) => different.has(step.id) || [step.before, step.after].some((each) => each && isTouched(each)),
    );
}

function byId(analysis: MachineAnalysis): Map<string, Step> {
  return new Map(listSteps(analysis).map((step) => [step.id, step]));
}

/** What was seen counts no more when something else is done or expected; other advice is no reason to do it again. */
function wordsOf(step: Step): string {
  return [step.act, step.terminals.join(' '), expectedText(step)].join('\n');
}
