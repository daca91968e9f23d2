import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { badlyFed } from '../../common/badly-fed.ts';
import { isAnyBlockBroken, partsInDoubt } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { isPartOpen } from '../../wiring/open-ends.ts';
import { stopDevices } from '../stop-devices.ts';

export const rule: Rule = {
  code: 'safety/emergency-stop-input-only',
  severity: 'warning',
  title: later`The emergency stop only tells the controller`,
  find: findInputOnly,
  say: (data) =>
    say`${word(data, 'part')} only tells ${joinWords(wordList(data, 'tells'), 'and')}: when the controller, its program or that wire fails, nothing stops. Let a second contact cut the power of drives and spindle itself. What is enough is decided by local codes, the makers' manuals and a licensed person, not here.`,
};

function* findInputOnly(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  // While a wire goes to a part or a terminal that is not known, it may be the one that cuts the power.
  if (partsInDoubt(analysis).size > 0) return;
  const unfed = badlyFed(analysis);
  for (const { part, cuts, tells } of stopDevices(analysis)) {
    // Everything that is joined to the ground of a controller without a supply seems to lead to its stop input.
    const isUnfed = (terminal: string) => unfed.has(terminal.slice(0, terminal.indexOf('.')));
    if (part.sheet?.partClass === 'switch' && tells.some(isUnfed)) continue;
    if (cuts.length > 0 || tells.length === 0 || isPartOpen(analysis, part.name)) continue;
    const ends = analysis.machine.links.filter((link) =>
      [link.from, link.to].some((end) => end.part === part.name),
    );
    yield {
      at: part.key,
      data: { part: part.name, tells },
      related: ends.slice(0, 4).map((link) => ({ at: link.at, note: say`${part.name} is wired here` })),
    };
  }
}
