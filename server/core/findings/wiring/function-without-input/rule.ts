import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { keyedInMeaning } from '../../../model/settings.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import { withCures } from '../../common/cure.ts';
import { isAnyBlockBroken, partsInDoubt } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { addLink } from '../add-link.ts';
import { isSignalWired, purposesIn, signalOf, unwiredInputsFor } from '../counterparts.ts';
import { openEndsOf } from '../open-ends.ts';
import { SWITCH_CLASSES, switchEntries } from '../purposes.ts';

export const rule: Rule = {
  code: 'wiring/function-without-input',
  severity: 'hint',
  title: later`A part is there for something that no input is wired for`,
  find: findFunctions,
  say: (data) =>
    data.why === 'switch'
      ? say`${word(data, 'part')} is there for ${word(data, 'does')}, and no wire goes to it: nobody notices when it is operated. Wire it to the input for ${word(data, 'does')}, or leave it out of the axis.`
      : say`${word(data, 'part')} gives ${joinWords(wordList(data, 'does'), 'and')}, and nothing is wired to ${joinWords(wordList(data, 'inputs'), 'and')}, which ${wordList(data, 'inputs').length > 1 ? 'take them' : 'takes it'}: that function does not work. Join ${word(data, 'output')} to ${wordList(data, 'inputs')[0] ?? ''}${wordList(data, 'inputs').length > 1 ? ', and so on' : ''}.`,
};

/** Told by other findings: by what a drive needs, and by where the converter takes its commands from. */
const TOLD: ReadonlySet<string> = new Set(['pulse', 'direction', 'enable']);

interface Lack {
  readonly output: CircuitAt;
  readonly input: CircuitAt;
}

function* findFunctions(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const doubtful = partsInDoubt(analysis);
  for (const lacks of groupBy(listLacks(analysis), ({ output }) => output.part).values()) {
    const isSure = lacks.every(({ output, input }) =>
      [output, input].every(({ part }) => !doubtful.has(part.name)),
    );
    const [first] = lacks;
    if (first && isSure) yield describe(analysis, first, lacks);
  }
  for (const { name, does } of switchEntries(analysis)) {
    const part = analysis.machine.parts.get(name.text);
    if (
      !SWITCH_CLASSES.has(part?.sheet?.partClass ?? '') ||
      !part ||
      doubtful.has(part.name) ||
      isWired(analysis, part) ||
      isLookedAt(analysis, does)
    )
      continue;
    yield { at: name, data: { why: 'switch', part: part.name, does } };
  }
}

/** Outputs without a wire for which there are inputs without one, in parts that are wired otherwise. */
function listLacks(analysis: MachineAnalysis): Lack[] {
  return [...purposesIn(analysis).giving.values()].flatMap((outputs) => {
    if (outputs.some((output) => isSignalWired(analysis, output))) return [];
    return outputs.flatMap((output): Lack[] => {
      const [input] = unwiredInputsFor(analysis, output);
      if (
        !input ||
        isTold(analysis, output, input) ||
        !isWired(analysis, output.part) ||
        !isWired(analysis, input.part)
      )
        return [];
      return [{ output, input }];
    });
  });
}

function describe(analysis: MachineAnalysis, { output, input }: Lack, lacks: readonly Lack[]): Found {
  const found = {
    at: output.part.key,
    data: {
      why: 'signal',
      part: output.part.name,
      does: lacks.map((lack) => lack.output.circuit.figures.text('does')?.value ?? ''),
      inputs: lacks.map((lack) => signalOf(lack.input)),
      output: signalOf(output),
    },
    related: lacks
      .slice(0, 4)
      .map((lack) => ({ at: lack.input.part.key, note: say`${signalOf(lack.input)} is free` })),
  };
  return withCures(
    analysis,
    found,
    () => [addLink(analysis, signalOf(output), signalOf(input))],
    (after) => listLacks(after).every((lack) => signalOf(lack.output) !== signalOf(output)),
  );
}

function isWired({ nets }: MachineAnalysis, { name, sheet }: Part): boolean {
  return [...(sheet?.terminals.keys() ?? [])].some((terminal) => nets.isWired(terminalId(name, terminal)));
}

/** Whether another finding says it, or nobody asked for it. */
function isTold(analysis: MachineAnalysis, output: CircuitAt, input: CircuitAt): boolean {
  const word = output.circuit.does?.word ?? '';
  const { circuits, unconnected, told } = openEndsOf(analysis);
  const nameOf = ({ part, circuit }: CircuitAt) => terminalId(part.name, circuit.name);
  const [own, other] = [output, input].map((at) => circuits.of.get(nameOf(at)));
  if (TOLD.has(word) || (own && told.has(own)) || (other && told.has(other))) return true;
  if (unconnected.some((lack) => [nameOf(output), nameOf(input)].includes(nameOf(lack)))) return true;
  if (word === 'spindle speed') return sourceOf(analysis, input, 'speed-source') === 'panel';
  if (word !== 'spindle run' && word !== 'spindle reverse') return false;
  // A converter that waits for its run command says itself that none comes.
  if (word === 'spindle run' && sourceOf(analysis, input, 'run-source') !== undefined) return true;
  // Without either command that is told where the converter is set to wait for one; a reverse alone may not be wanted.
  if (word === 'spindle run')
    return own === undefined || sourceOf(analysis, input, 'run-source') !== undefined;
  const isAnyWired = ['spindle run', 'spindle reverse'].some((does) =>
    (purposesIn(analysis).taking.get(does) ?? []).some((each) => isSignalWired(analysis, each)),
  );
  return !isAnyWired || own === undefined || sourceOf(analysis, input, 'run-source') === 'panel';
}

/** Where a converter takes a command from. */
function sourceOf({ machine }: MachineAnalysis, { part }: CircuitAt, meaning: string): string | undefined {
  return keyedInMeaning(machine.file, part, meaning)?.scalar.text;
}

/** Whether an input for a purpose is set to be in use: that it is not wired is told where that is set. */
function isLookedAt(analysis: MachineAnalysis, does: string): boolean {
  return (purposesIn(analysis).taking.get(does) ?? []).some(
    ({ part, circuit }) =>
      keyedInMeaning(analysis.machine.file, part, 'input-use', { circuit: circuit.name })?.scalar.text ===
      'on',
  );
}
