import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Data, Fix } from '../../../problem.ts';
import { valueUnder } from '../../../syntax/node.ts';
import { addItem } from '../../common/edits.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { EARTH, findUnearthed } from '../unearthed.ts';

export const rule: Rule = {
  code: 'safety/chassis-without-earth',
  severity: 'error',
  title: later`A metal chassis is not earthed`,
  find: findChassis,
  say: (data) =>
    say`${word(data, 'part')} has a metal chassis${also(data)}, and its earth terminal ${word(data, 'terminal')} ${data.goes === true ? 'does not lead to the protective earth of the mains' : 'goes nowhere'}: one worn or loose live wire puts mains voltage on everything that can be touched, and no fuse blows. Join it to protective earth with a green-yellow wire of its own. Earthing is work for a licensed person, by local codes.`,
};

function also(data: Data): string {
  const others = wordList(data, 'others');
  return others.length === 0
    ? ''
    : say`, as ${others.length > 1 ? 'have' : 'has'} ${joinWords(others, 'and')}`;
}

function* findChassis(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const [{ part, terminal, goes }, ...others] of findUnearthed(analysis)) {
    const chassis = part.sheet?.facts.text('chassis');
    yield {
      at: part.key,
      data: { part: part.name, terminal, goes, others: others.map((other) => other.part.name) },
      related: [
        ...others.map((other) => ({
          at: other.part.key,
          note: say`${other.part.name} is joined to it, and lacks earth as well`,
        })),
        ...(chassis
          ? [
              {
                ...elsewhere(analysis, part.sheet?.file),
                at: chassis.at,
                note: say`${part.name} has a ${chassis.text} chassis`,
              },
            ]
          : []),
      ],
      fixes: goes && others.length === 0 ? [] : linkToBar(analysis, terminal),
    };
  }
}

/** A link from a free screw of the only earth bar of the machine. */
function linkToBar(analysis: MachineAnalysis, terminal: string): Fix[] {
  const { machine, nets, tree } = analysis;
  const bars = [...machine.parts.values()].filter(
    ({ name, sheet }) =>
      sheet?.partClass === 'terminal-strip' &&
      [...sheet.terminals.keys()].some((each) => nets.netOf(terminalId(name, each)) === nets.netOf(EARTH)) &&
      sheet.terminals.size > 1,
  );
  const [bar] = bars;
  if (!bar?.sheet || bars.length > 1) return [];
  const free = [...bar.sheet.terminals.keys()]
    .map((each) => terminalId(bar.name, each))
    .find((each) => nets.netOf(each) === nets.netOf(EARTH) && !nets.isWired(each));
  const link = `${free} -> ${terminal}  GNYE`;
  const edit = free === undefined ? undefined : addItem(tree, valueUnder(tree.root, 'wiring'), link);
  return edit ? [{ title: say`Add ${link}`, edits: [edit], safe: false }] : [];
}
