import { later, said, say } from '../../language/say.ts';
import type { Data } from '../../problem.ts';
import { joinWords, word, wordList } from '../common/words.ts';
import type { Rule } from '../rule.ts';
import { findMargins, type MarginName } from './margins.ts';

/** What the controller gives, what the drive asks, and what happens otherwise. */
const WORDS: Readonly<Record<MarginName, { given: (time: string) => string; result: string }>> = {
  lead: {
    given: (time) => say`The direction is steady for ${time} before a pulse`,
    result: later`the first step after a change of direction can go the wrong way`,
  },
  hold: {
    given: (time) => say`The direction stays steady for ${time} after a pulse`,
    result: later`the last step before a change of direction can go the wrong way`,
  },
  on: {
    given: (time) => say`A pulse is on for ${time}`,
    result: later`pulses can be missed and the axis loses its place`,
  },
  off: {
    given: (time) => say`Between two pulses it is off for ${time}`,
    result: later`pulses can run into one another and the axis loses its place`,
  },
};

/** The two findings about one margin differ in how much is left, and so in severity. */
export function marginRule(code: string, name: MarginName, size: 'short' | 'scant', title: string): Rule {
  return {
    code,
    severity: size === 'short' ? 'error' : 'warning',
    title,
    find: (analysis) => findMargins(analysis, name, size),
    say: (data) => sayMargin(data, name, size),
  };
}

function sayMargin(data: Data, name: MarginName, size: 'short' | 'scant'): string {
  const { given, result } = WORDS[name];
  const others = wordList(data, 'others');
  const axes = `${word(data, 'axis')}${others.length > 0 ? say` (and ${joinWords(others, 'and')})` : ''}`;
  const left =
    size === 'short'
      ? say`${word(data, 'margin')} too little on ${axes}, so ${said(result)}`
      : say`${word(data, 'share') === '0' ? 'nothing' : say`only ${word(data, 'margin')} (${word(data, 'share')} %)`} is left on ${axes} for tolerances`;
  const [setting, wanted] = [word(data, 'setting'), word(data, 'wanted')];
  const advice =
    setting === '' || wanted === ''
      ? say`Choose a drive or a controller that leaves more.`
      : say`Set ${setting} to ${wanted}.`;
  return say`${given(word(data, 'given'))}, and ${word(data, 'drive')} asks for ${word(data, 'asked')}: ${left}. ${advice}`;
}
