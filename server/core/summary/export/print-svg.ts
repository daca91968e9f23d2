import { h, printHtml, type ViewElement } from '../view.ts';

const XML = 'http://www.w3.org/2000/svg';

/** Prints a picture as an SVG file of its own, on white paper. Characters that XML does not have are left out. */
export function printSvg(picture: ViewElement): string {
  const { viewBox = '0 0 0 0' } = picture.attributes;
  const [x = 0, y = 0, width = 0, height = 0] = viewBox.split(' ').map(Number);
  const paper = h('rect', { x, y, width, height, fill: '#ffffff' });
  const whole: ViewElement = {
    ...picture,
    attributes: { xmlns: XML, ...picture.attributes },
    children: [paper, ...picture.children],
  };
  return `<?xml version="1.0" encoding="UTF-8"?>\n${dropControls(printHtml(whole))}\n`;
}

/** The control characters, lone surrogates and non-characters that XML 1.0 does not allow (W3C, production 2). */
function dropControls(text: string): string {
  let kept = '';
  for (const char of text) {
    const code = char.codePointAt(0) ?? 0;
    const isBad =
      (code < 32 && code !== 9 && code !== 10 && code !== 13) || (code >= 0xd800 && code <= 0xdfff);
    if (!isBad && code !== 0xfffe && code !== 0xffff) kept += char;
  }
  return kept;
}
