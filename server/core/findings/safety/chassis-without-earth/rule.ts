import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { terminalId } from '../../../circuits/nets.ts';
import type { Part } from '../../../model/machine.ts';
import { MAINS } from '../../../model/resolve.ts';
import type { Fix } from '../../../problem.ts';
import { valueUnder } from '../../../syntax/node.ts';
import { addItem } from '../../common/edits.ts';
import { isAnyBlockBroken, partsInDoubt } from '../../common/held-back.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'safety/chassis-without-earth',
  severity: 'error',
  title: 'A metal chassis is not earthed',
  find: findUnearthed,
  say: (data) =>
    `${word(data, 'part')} has a metal chassis, and its earth terminal ${word(data, 'terminal')} ${data.goes === true ? 'does not lead to the protective earth of the mains' : 'goes nowhere'}: one worn or loose live wire puts mains voltage on everything that can be touched, and no fuse blows. Join it to protective earth with a green-yellow wire of its own. Earthing is work for a licensed person, by local codes.`,
};

const EARTH = terminalId(MAINS, 'PE');

function* findUnearthed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const { machine, nets } = analysis;
  const doubtful = partsInDoubt(analysis);
  for (const part of machine.parts.values()) {
    const terminal = earthOf(part);
    if (terminal === undefined || doubtful.has(part.name) || !isUsed(analysis, part)) continue;
    const goes = nets.isWired(terminal);
    const isEarthed = nets.isWired(EARTH) ? nets.netOf(terminal) === nets.netOf(EARTH) : goes;
    if (isEarthed) continue;
    const chassis = part.sheet?.facts.text('chassis');
    yield {
      at: part.key,
      data: { part: part.name, terminal, goes },
      related: chassis
        ? [
            {
              ...elsewhere(analysis, part.sheet?.file),
              at: chassis.at,
              note: `${part.name} has a ${chassis.text} chassis`,
            },
          ]
        : [],
      fixes: goes ? [] : linkToBar(analysis, terminal),
    };
  }
}

/** The earth terminal of a part with a metal chassis. */
function earthOf({ name, sheet }: Part): string | undefined {
  if (sheet?.facts.text('chassis')?.value !== 'metal') return undefined;
  const earth = [...sheet.circuits.values()].find(({ kind }) => kind === 'earth');
  return earth?.ends[0] && terminalId(name, earth.ends[0].text);
}

/** Whether a part is in the machine for more than its name: something is wired to it, or there is nothing but earth. */
function isUsed({ nets }: MachineAnalysis, { name, sheet }: Part): boolean {
  const terminals = [...(sheet?.terminals.keys() ?? [])];
  return terminals.length === 1 || terminals.some((terminal) => nets.isWired(terminalId(name, terminal)));
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
  return edit ? [{ title: `Add ${link}`, edits: [edit], safe: false }] : [];
}
