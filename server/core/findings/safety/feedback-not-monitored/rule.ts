import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { closedAtRest } from '../../../circuits/solve/figures.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import { reachFrom } from '../../common/conductors.ts';
import { isAnyBlockBroken, partsInDoubt } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { isPartOpen } from '../../wiring/open-ends.ts';
import { isSource, traceContacts } from '../stop-devices.ts';

export const rule: Rule = {
  code: 'safety/feedback-not-monitored',
  severity: 'warning',
  title: later`A safety relay resets without looking whether its contactors have opened`,
  find: findUnmonitored,
  say: (data) => {
    const contactors = wordList(data, 'contactors');
    return say`${word(data, 'relay')} switches ${joinWords(contactors, 'and')}, and its reset at ${word(data, 'terminal')} does not go through a contact of ${contactors.length > 1 ? 'each' : 'it'} that is closed only while it is off: one that has welded is not noticed, and the next stop may stop nothing. Put such a contact in series with the reset button. What is enough is decided by local codes and a licensed person.`;
  },
};

function* findUnmonitored(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis) || partsInDoubt(analysis).size > 0) return;
  for (const relay of analysis.machine.parts.values()) {
    const reset = [...(relay.sheet?.circuits.values() ?? [])].find(({ does }) => does?.word === 'reset');
    const terminal = terminalId(relay.name, reset?.ends[0]?.text ?? '');
    if (!reset || !analysis.nets.isWired(terminal)) continue;
    const contactors = switchedBy(analysis, relay).filter(
      // A feedback contact that is wired on one side only is told of as such.
      (contactor) => !isMonitored(analysis, terminal, contactor) && !isPartOpen(analysis, contactor.name),
    );
    if (contactors.length === 0) continue;
    const links = analysis.nets.linksAt(terminal);
    yield {
      at: links[0]?.at ?? relay.key,
      data: { relay: relay.name, terminal, contactors: contactors.map(({ name }) => name) },
      related: contactors.map(({ key, name }) => ({
        at: key,
        note: say`${name} is switched by ${relay.name}`,
      })),
    };
  }
}

/** The relays and contactors whose coils hang on a relay's contacts. */
function switchedBy(analysis: MachineAnalysis, relay: Part): Part[] {
  const coils = traceContacts(analysis, relay).cuts.filter(({ circuit }) => circuit.kind === 'coil');
  return [...new Set(coils.map(({ part }) => part))].filter((part) => part.sheet?.partClass === 'relay');
}

/** Whether the current of a reset has to pass a contact of a contactor that is closed while it is off. */
function isMonitored(analysis: MachineAnalysis, terminal: string, contactor: Part): boolean {
  const passes = [...reachFrom(analysis, terminal, contactor)].some((net) => isSource(analysis, net));
  if (passes) return false;
  return [...(contactor.sheet?.circuits.values() ?? [])].some(
    (circuit) =>
      circuit.kind === 'contact' &&
      closedAtRest(analysis.machine, contactor, circuit) &&
      circuit.ends.every((end) => analysis.nets.isWired(terminalId(contactor.name, end.text))),
  );
}
