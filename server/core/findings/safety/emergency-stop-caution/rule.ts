import type { Analysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { stopDevices } from '../stop-devices.ts';

const LIMITS = later`Ratings, welded contacts, stored energy and how fast the machine stops were not checked: local codes, the makers' manuals and a licensed person decide what is enough.`;

export const rule: Rule = {
  code: 'safety/emergency-stop-caution',
  severity: 'hint',
  title: later`What was and was not checked of the emergency stop`,
  find: findStanding,
  say: (data) => {
    if (data.state === 'none') return say`No part of this machine is an emergency stop. ${said(LIMITS)}`;
    if (data.state === 'unwired')
      return say`${word(data, 'part')} cuts nothing that could be traced through the wiring. ${said(LIMITS)}`;
    const [cuts, behind] = [wordList(data, 'cuts'), wordList(data, 'behind')];
    const lose = cuts.length > 1 ? 'lose' : 'loses';
    const them = cuts.length > 1 ? 'them' : 'it';
    return behind.length > 0
      ? say`${word(data, 'part')} was traced to ${joinWords(cuts, 'and')}, which ${lose} power by it, and with ${them} ${joinWords(behind, 'and')}. ${said(LIMITS)}`
      : say`${word(data, 'part')} was traced to ${joinWords(cuts, 'and')}, which ${lose} power by it. ${said(LIMITS)}`;
  },
};

/** One standing caution for a machine that has something to stop; the warning about an input alone takes its place. */
function* findStanding(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const devices = stopDevices(analysis);
  if (devices.some(({ cuts, tells }) => cuts.length === 0 && tells.length > 0)) return;
  const device = devices.find(({ cuts }) => cuts.length > 0) ?? devices[0];
  if (device) {
    const state = device.cuts.length > 0 ? 'cuts' : 'unwired';
    yield {
      at: device.part.key,
      data: { part: device.part.name, state, cuts: device.cuts, behind: device.behind },
    };
    return;
  }
  const controller = [...analysis.machine.parts.values()].find(
    (part) => part.sheet?.partClass === 'controller',
  );
  if (controller && analysis.machine.axes.size > 0)
    yield { at: controller.key, data: { part: controller.name, state: 'none' } };
}
