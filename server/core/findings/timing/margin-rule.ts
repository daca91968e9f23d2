import type { Data } from '../../problem.ts';
import { joinWords, word, wordList } from '../common/words.ts';
import type { Rule } from '../rule.ts';
import { findMargins, type MarginName } from './margins.ts';

/** What the controller gives, what the drive asks, and what happens otherwise. */
const WORDS: Readonly<Record<MarginName, { given: string; asked: string; result: string }>> = {
  lead: {
    given: 'The direction is steady for {given} before a pulse',
    asked: '{drive} asks for {asked}',
    result: 'the first step after a change of direction can go the wrong way',
  },
  hold: {
    given: 'The direction stays steady for {given} after a pulse',
    asked: '{drive} asks for {asked}',
    result: 'the last step before a change of direction can go the wrong way',
  },
  on: {
    given: 'A pulse is on for {given}',
    asked: '{drive} asks for {asked}',
    result: 'pulses can be missed and the axis loses its place',
  },
  off: {
    given: 'Between two pulses it is off for {given}',
    asked: '{drive} asks for {asked}',
    result: 'pulses can run into one another and the axis loses its place',
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
  const fill = (text: string) => text.replace(/\{(\w+)\}/g, (_, key: string) => word(data, key));
  const { given, asked, result } = WORDS[name];
  const others = wordList(data, 'others');
  const axes = `${word(data, 'axis')}${others.length > 0 ? ` (and ${joinWords(others, 'and')})` : ''}`;
  const left =
    size === 'short'
      ? `${word(data, 'margin')} too little on ${axes}, so ${result}`
      : `${word(data, 'share') === '0' ? 'nothing' : `only ${word(data, 'margin')} (${word(data, 'share')} %)`} is left on ${axes} for tolerances`;
  const [setting, wanted] = [word(data, 'setting'), word(data, 'wanted')];
  const advice =
    setting === '' || wanted === ''
      ? 'Choose a drive or a controller that leaves more.'
      : `Set ${setting} to ${wanted}.`;
  return `${fill(given)}, and ${fill(asked)}: ${left}. ${advice}`;
}
