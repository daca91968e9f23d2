import { addToSection, applyDiff, readBlocks } from './blocks.ts';

/**
 * A file as somebody has it who has followed a page down to a step, whose heading begins with its number; with `blocks`
 * only so many of the last step's own blocks have been done.
 */
export function fileAfter(
  page: string,
  file: string,
  step: number,
  blocks = Number.POSITIVE_INFINITY,
): string {
  const lines = page.split('\n');
  const start = lines.findIndex((line) => line.startsWith(`## ${step}. `)) + 1;
  if (start === 0) throw new Error(`there is no step ${step}`);
  const next = lines.findIndex((line, index) => index >= start && line.startsWith('## '));
  const end = next < 0 ? lines.length : next;
  const done = readBlocks(page).filter((block) => block.file === file && block.line <= end);
  const own = done.filter(({ line }) => line > start);
  return done.slice(0, done.length - own.length + Math.min(blocks, own.length)).reduce((text, block) => {
    if (block.language === 'diff') return applyDiff(text, block.lines);
    return block.section === undefined
      ? `${block.lines.join('\n')}\n`
      : addToSection(text, block.section, block.lines);
  }, '');
}
