import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { keyedIn } from '../model/settings.ts';
import { hashText } from '../summary/hash.ts';
import { partId } from '../summary/place-ids.ts';
import { idsOf, makeStep } from './make-step.ts';
import type { Step } from './step.ts';

/** One step for each part that has settings: key them in, and read them back. */
export function settingSteps({ machine }: MachineAnalysis, before: readonly Step[]): Step[] {
  const after = idsOf(before, 'supplies');
  return [...machine.parts.values()].flatMap((part) => {
    // What a contact is at rest is bought, not keyed in.
    const settings = [...(part.sheet?.settings.values() ?? [])].filter(({ is }) => is !== 'contact');
    const keyed = settings.filter(({ name }) => part.assigned.has(name));
    if (keyed.length === 0) return [];
    // The mark changes with any of the values, so that a record made before is known to be older.
    const values = keyed.map(
      (setting) => `${setting.name}=${keyedIn(machine.file, part, setting)?.scalar.text}`,
    );
    const mark = hashText(values.join('\n')).slice(0, 6);
    return makeStep({
      id: `settings:${part.name}`,
      stage: 'settings',
      title: say`${part.name} is set`,
      act: say`Set what the settings sheet lists for ${part.name} (${keyed.length} of its ${settings.length} settings are written here), switch it off and on, and read them back.`,
      expected: [{ when: '', shown: say`${keyed.length} values as in the settings sheet (mark ${mark})` }],
      remedy: say`A value that was rounded or refused belongs in the definition as it is, so that its consequences show.`,
      settings: keyed.map(({ name }) => `${part.name}.${name}`),
      place: partId(part.name),
      after,
    });
  });
}
