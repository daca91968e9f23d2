import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Data, Fix } from '../../../problem.ts';
import { type ActingSensor, sensorsOf } from '../../common/acting.ts';
import { type Diagnosis, diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { swapTerminals } from '../../common/link-ends.ts';
import { stuckByFeed } from '../../common/shared-feed.ts';
import { showLevel } from '../../common/sights.ts';
import { figure, joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { moveToOtherRail } from '../rail-fixes.ts';
import { sharedSide } from '../shared-side.ts';

export const rule: Rule = {
  code: 'polarity/input-never-on',
  severity: 'error',
  title: later`An input can never turn on`,
  find: findNeverOn,
  say: (data) => {
    const sensor = word(data, 'sensor');
    const actor = word(data, 'actor');
    const why =
      sensor !== ''
        ? say`${sensor} does not work: it has ${word(data, 'fed')} between plus and minus and takes ${word(data, 'takes')}. Check which of its wires goes to which side of the supply`
        : actor === ''
          ? say`Nothing that is wired to it can change that. Wire what should act on it between it and the other side of its supply`
          : sayIdle(actor, word(data, 'driver'));
    const others = wordList(data, 'others');
    if (others.length > 0)
      return say`${nameInput(data)} can never turn on, and neither can ${joinWords(others)}: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')} to turn on. The ${figure(data, 'count')} inputs share the side of ${word(data, 'common')}: check where the wire of that side comes from, and which way round they are.`;
    return say`${nameInput(data)} can never turn on: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')} to turn on. ${why}.`;
  },
};

/** A switch can be led to the other side of a supply; an output is where it is, and only the wires can be wrong. */
function sayIdle(actor: string, driver: string): string {
  if (driver === 'pair')
    return say`The signal of ${actor} comes as a pair of lines, and makes no difference to it. Wire one of the two lines to each of its sides`;
  if (driver === 'output')
    return say`The output of ${actor} makes no difference to it. Check both of its wires: one side belongs to that output, and the other to where the output does not switch to`;
  return say`${actor} makes no difference to it. Wire ${actor} to the other side of its supply`;
}

/** How an input that its actor has no effect on is driven, where no hand or cam does it. */
function driverOf({ actor, input }: Diagnosis): Data {
  if (actor?.mover !== 'output') return {};
  const { elements } = input.solution.circuit.board;
  return {
    driver: actor.elements.some((place) => elements[place]?.at.circuit.kind === 'line-out')
      ? 'pair'
      : 'output',
  };
}

function* findNeverOn(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const group of stuckByFeed(analysis, 'never-on')) {
    const [diagnosis] = group;
    yield findingFor(
      analysis,
      diagnosis,
      sharedSide(analysis, group) ?? {
        data: driverOf(diagnosis),
        propose: () => moveToOtherRail(analysis, diagnosis.input),
      },
    );
  }
  for (const diagnosis of diagnosed(analysis, 'sensor-unfed')) {
    const sensor = sensorsOf(diagnosis.input).find(({ isDead }) => isDead);
    if (!sensor) continue;
    yield findingFor(analysis, diagnosis, {
      data: sayFeed(sensor),
      propose: () => [swapSupply(analysis, sensor)],
    });
  }
}

function sayFeed({ element, part, volts }: ActingSensor): Data {
  const takes = element.at.circuit.figures.span('voltage')?.text ?? say`a voltage the other way round`;
  return { sensor: part.name, fed: showLevel(volts ?? 0, 'V'), takes };
}

function swapSupply(analysis: MachineAnalysis, { element, part }: ActingSensor): Fix | undefined {
  const [plus = '', minus = ''] = element.at.circuit.ends.map((end) => terminalId(part.name, end.text));
  const edits = swapTerminals(analysis, plus, minus);
  return edits && { title: say`Exchange the wires at ${plus} and ${minus}`, edits, safe: false };
}
