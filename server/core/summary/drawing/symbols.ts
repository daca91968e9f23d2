import { h, type ViewElement } from '../view.ts';

/**
 * Small symbols for what a part is, after the general forms of IEC 60617: motors are circles, converters squares with a
 * slanted line, fuses boxes with the line through them. Each is a path in a box of 22 by 16.
 */
const PATHS: Readonly<Record<string, string>> = {
  motor: 'M11 1a7 7 0 1 0 .01 0M7.5 11.5v-7l3.5 5 3.5 -5v7',
  spindle: 'M11 1a7 7 0 1 0 .01 0M7.5 9v-5l3.5 3.5 3.5 -3.5v5M6.5 12q1.5 -2 3 0t3 0t3 0',
  supply: 'M3 1h16v14h-16zM3 15l16 -14M6 4.5q1.2 -1.6 2.4 0t2.4 0M12 11h5M12 13h5',
  converter: 'M3 1h16v14h-16zM3 15l16 -14M5.5 5q1 -1.6 2 0t2 0M12.5 11.5q1 -1.6 2 0t2 0',
  drive: 'M3 1h16v14h-16zM3 15l16 -14M6 4.5h5M12 12v-2.5h2v2.5h2v-2.5h1.5',
  controller: 'M3 1h16v14h-16zM6 4h10v5h-10zM7 12h2M10 12h2M13 12h2',
  fuse: 'M0 8h22M4 4.5h14v7h-14z',
  breaker: 'M0 11h6l10 -7M16 11h6M13.5 8.5l5 5M18.5 8.5l-5 5',
  switch: 'M0 11h6l11 -6M16 11h6',
  'emergency-stop': 'M0 12h6l11 -4M16 12h6M11 9.5v-5M6.5 4.5q4.5 -5.5 9 0z',
  relay: 'M5 3h12v10h-12zM11 3v-3M11 13v3M5 10l12 -4',
  sensor: 'M3 8l8 -7l8 7l-8 7zM7.5 8h7',
  probe: 'M11 1v9M8 10h6l-3 5z',
  handwheel: 'M11 1a7 7 0 1 0 .01 0M11 6a2 2 0 1 0 .01 0M11 1v5M5 11.5l4.3 -2.5M17 11.5l-4.3 -2.5',
  'terminal-strip': 'M11 0v16M11 3h7M11 8h7M11 13h7M4 3h7M4 8h7M4 13h7',
  mains: 'M3 8q4 -11 8 0t8 0',
  load: 'M0 8h5M17 8h5M5 3.5h12v9h-12z',
};

/** The symbol of a class of parts with its right edge at `right`; nothing for a class that has none. */
export function drawSymbol(partClass: string, right: number): ViewElement | undefined {
  if (!Object.hasOwn(PATHS, partClass)) return undefined;
  return h('path', {
    class: 'symbol',
    d: PATHS[partClass],
    transform: `translate(${right - 22} 5)`,
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': 1.1,
    'stroke-linejoin': 'round',
    'stroke-opacity': 0.8,
    'aria-hidden': 'true',
  });
}
