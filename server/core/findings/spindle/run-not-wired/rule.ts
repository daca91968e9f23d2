import type { Analysis } from '../../../analysis.ts';
import { circuitsDoing } from '../../../circuits/signals.ts';
import { later, say } from '../../../language/say.ts';
import { keyedInMeaning } from '../../../model/settings.ts';
import { readSpindle } from '../../../values/spindle-parts.ts';
import { isAnyBlockBroken, isFaulty, partsInDoubt } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { reachesOthers } from '../../wiring/needed.ts';

export const rule: Rule = {
  code: 'spindle/run-not-wired',
  severity: 'error',
  title: later`A converter waits for a run command on a terminal that is not wired`,
  find: findUnwired,
  say: (data) =>
    say`${word(data, 'part')} takes its run command from its terminals (${word(data, 'setting')}), and nothing is wired to ${word(data, 'terminal')}: the spindle never starts. Wire ${word(data, 'terminal')} to the controller's run output, or let the converter be started from its panel.`,
};

function* findUnwired(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const converter = readSpindle(analysis.machine)?.converter;
  if (!converter || partsInDoubt(analysis).has(converter.name)) return;
  const keyed = keyedInMeaning(analysis.machine.file, converter, 'run-source');
  const terminalsFor = (word: string) =>
    circuitsDoing(converter, word).flatMap(({ ends }) => ends.slice(0, 1).map((end) => end.text));
  // Reverse alone turns no tool the right way; it counts only where there is nothing else.
  const forward = terminalsFor('spindle run');
  const terminals = forward.length > 0 ? forward : terminalsFor('spindle reverse');
  const [first] = terminals;
  if (keyed?.scalar.text !== 'terminals' || first === undefined || isFaulty(analysis, keyed.scalar)) return;
  if (terminals.some((terminal) => reachesOthers(analysis, converter, terminal))) return;
  yield {
    at: keyed.origin === 'set' ? keyed.scalar : converter.key,
    data: { part: converter.name, setting: keyed.setting.name, terminal: first },
  };
}
