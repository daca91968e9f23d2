import { readColour } from './colours.ts';
import { expectedWire, readSection, type Section } from './gauge.ts';
import { keepReadings } from './keep.ts';
import { shorten } from './number.ts';
import { type Reading, type Repair, refuse, shiftProblem } from './reading.ts';

/** A wire or cable as it is written in a definition: `0.25 mm2 YE`, `4 x 0.75 mm2 screened`, `20 AWG`. */
export interface Wire extends Section {
  readonly cores: number;
  readonly screened: boolean;
  /** IEC 60757 code. */
  readonly colour?: string;
}

const MOST_CORES = 100;
const LONGEST_TEXT = 100;

/** The section with which a text begins: number and unit, in one word or two. */
const SECTION = /^(?:AWG\s*\S+|\S*\d\s*AWG|[^\sA-Za-z]+\s+(?!screen|shield)\S+|\S+)/i;

/** Reads a wire: perhaps a number of cores, a section in mm2 or an AWG number, perhaps `screened`, perhaps a colour. */
export const readWire = keepReadings(read);

function read(text: string): Reading<Wire> {
  const typed = text.trim();
  const from = text.length - text.trimStart().length;
  const to = from + typed.length;
  if (typed === '') return refuseWire('empty', text, [from, to]);
  if (text.length > LONGEST_TEXT) return refuseWire('too-long', text, [from, to]);
  const start = /^(\d+)\s*[xX\u00d7*]\s*/.exec(typed);
  const cores = Number(start?.[1] ?? 1);
  if (cores < 1 || cores > MOST_CORES) {
    return refuseWire('no-cores', text, [from, from + (start?.[1]?.length ?? 0)]);
  }
  const sectionFrom = from + (start?.[0].length ?? 0);
  const sectionText = dropColour(SECTION.exec(text.slice(sectionFrom, to))?.[0] ?? '');
  if (sectionText === '') return refuseWire('no-wire', text, [from, to]);
  const section = readSection(sectionText);
  const problems = section.problems.map((problem) => shiftProblem(problem, sectionFrom));
  if (section.value === undefined) return { problems };
  const wire: Wire = { cores, ...section.value, screened: false };
  const full = readWords(text, sectionFrom + sectionText.length, wire);
  return full.value === undefined ? full : { value: full.value, problems };
}

/** A section such as `0.5 YE`, in which a colour stands where the unit is missing, without the colour. */
function dropColour(section: string): string {
  const [number = '', word = ''] = section.split(/\s+/);
  return readColour(word).value === undefined ? section : number;
}

/** Reads what may follow the section, in any order. */
function readWords(text: string, from: number, bare: Wire): Reading<Wire> {
  let wire = bare;
  for (const { 0: word, index } of text.slice(from).matchAll(/\S+/g)) {
    const at: [number, number] = [from + index, from + index + word.length];
    if (word === 'screened') {
      if (wire.screened) return refuseWire('said-twice', text, at);
      wire = { ...wire, screened: true };
    } else if (/^(?:screen|shield)(?:ed)?$/i.test(word)) {
      const repair = { from: at[0], to: at[1], text: 'screened', label: 'screened' };
      return refuseWire('no-wire', text, at, [repair]);
    } else {
      const colour = readColour(word);
      if (colour.value === undefined) {
        return { problems: colour.problems.map((problem) => shiftProblem(problem, at[0])) };
      }
      if (wire.colour !== undefined) return refuseWire('said-twice', text, at);
      wire = { ...wire, colour: colour.value.code };
    }
  }
  return { value: wire, problems: [] };
}

function refuseWire(
  reason: string,
  text: string,
  at: readonly [number, number],
  repairs: readonly Repair[] = [],
): Reading<Wire> {
  const typed = shorten(text.slice(...at));
  return refuse('unit/not-a-quantity', at, { ...expectedWire(), reason, typed }, repairs);
}
