import type { Drawing, DrawnLink, DrawnPart } from '../../server/core/summary/drawing/drawing.ts';

/** A made-up machine of 24 parts and about 80 links, to try drawing and page with. */
export function sampleDrawing(): Drawing {
  const links: DrawnLink[] = [];
  const wired = new Set<string>();
  const join = (from: string, to: string, kind: DrawnLink['kind'], more: Partial<DrawnLink> = {}): void => {
    for (const end of [from, to]) wired.add(`terminal:${end}`);
    const number = links.length + 1;
    links.push({ id: `link:${number}`, from: `terminal:${from}`, to: `terminal:${to}`, kind, ...more });
  };

  join('mains.L', 'breaker-1.1', 'mains', { colour: 'BN', label: 'W1' });
  join('mains.N', 'logic-psu.N', 'mains', { colour: 'BU', label: 'W2' });
  join('mains.N', 'motor-psu.N', 'mains', { colour: 'BU', label: 'W3' });
  join('mains.N', 'converter-1.N', 'mains', { colour: 'BU', label: 'W4' });
  join('breaker-1.2', 'logic-psu.L', 'mains', { colour: 'BN', label: 'W5' });
  join('breaker-1.2', 'motor-psu.L', 'mains', { colour: 'BN', label: 'W6' });
  join('breaker-1.2', 'converter-1.L', 'mains', { colour: 'BN', label: 'W7' });
  join('mains.PE', 'earth-bar.1', 'earth', { colour: 'GNYE', label: 'W8' });
  join('earth-bar.2', 'logic-psu.PE', 'earth', { colour: 'GNYE' });
  join('earth-bar.2', 'motor-psu.PE', 'earth', { colour: 'GNYE' });
  join('earth-bar.3', 'converter-1.PE', 'earth', { colour: 'GNYE' });
  join('earth-bar.4', 'panel.PE', 'earth', { colour: 'GNYE' });
  join('logic-psu.V+', 'panel.DC+', 'power', { colour: 'RD', label: 'W10' });
  join('logic-psu.V-', 'panel.DC-', 'power', { colour: 'BK', label: 'W11' });
  for (const axis of ['x', 'y', 'z', 'a']) {
    const upper = axis.toUpperCase();
    join('motor-psu.V+', `drive-${axis}.V+`, 'power', { colour: 'RD', label: `W2${upper}` });
    join('motor-psu.V-', `drive-${axis}.V-`, 'power', { colour: 'BK', label: `W3${upper}` });
    join('panel.5V', `drive-${axis}.PUL+`, 'signal', { colour: 'OG' });
    join('panel.5V', `drive-${axis}.DIR+`, 'signal', { colour: 'OG' });
    join(`panel.${upper}P`, `drive-${axis}.PUL-`, 'signal', { colour: 'WHBU', label: `P${upper}` });
    join(`panel.${upper}D`, `drive-${axis}.DIR-`, 'signal', { colour: 'YE', label: `D${upper}` });
    const cable = `K${upper}`;
    join(`drive-${axis}.A+`, `motor-${axis}.A+`, 'motor', { colour: 'BN', cable });
    join(`drive-${axis}.A-`, `motor-${axis}.A-`, 'motor', { colour: 'BU', cable });
    join(`drive-${axis}.B+`, `motor-${axis}.B+`, 'motor', { colour: 'BK', cable });
    join(`drive-${axis}.B-`, `motor-${axis}.B-`, 'motor', { colour: 'WH', cable });
  }
  const switches = ['stop-x-far', 'stop-x-near', 'stop-y-far', 'stop-y-near', 'stop-z-far'];
  const inputs = ['XF', 'XN', 'YF', 'YN', 'ZF'];
  switches.forEach((name, index) => {
    join('panel.24S', `${name}.1`, 'signal');
    join(`${name}.2`, `panel.${inputs[index]}`, 'signal', index === 0 ? { label: 'S1' } : {});
  });
  join('panel.24S', 'probe-1.BN', 'signal', { colour: 'BN', label: 'T1' });
  join('panel.C-', 'probe-1.BU', 'signal', { colour: 'BU', label: 'T2' });
  join('probe-1.BK', 'panel.PR', 'signal', { colour: 'BK', label: 'T3' });
  join('panel.24S', 'stop-button.11', 'signal');
  join('stop-button.12', 'panel.ES', 'signal');
  join('panel.SV', 'converter-1.AI', 'signal', { colour: 'VT', label: 'V1' });
  join('panel.G', 'converter-1.AC', 'signal', { colour: 'GY', label: 'V2' });
  join('panel.S1', 'converter-1.FWD', 'signal', { colour: 'PK', label: 'V3' });
  for (const phase of ['U', 'V', 'W'])
    join(`converter-1.${phase}`, `spindle-1.${phase}`, 'motor', { cable: 'KS' });
  join('converter-1.PE2', 'spindle-1.PE', 'earth', { colour: 'GNYE', cable: 'KS' });
  join('wheel-1.A', 'panel.HA', 'signal', { colour: 'GN' });
  join('wheel-1.B', 'panel.HB', 'signal', { colour: 'YE' });
  join('wheel-1.V', 'panel.5V', 'signal', { colour: 'RD' });
  join('wheel-1.0V', 'panel.G', 'signal', { colour: 'BK' });

  const part = (
    name: string,
    partClass: string,
    title: string,
    groups: Record<string, string>,
    place?: string,
  ): DrawnPart => ({
    id: `part:${name}`,
    name,
    title,
    partClass,
    ...(place === undefined ? {} : { place }),
    terminals: Object.entries(groups).flatMap(([group, terminals]) =>
      terminals.split(' ').map((terminal) => {
        const id = `terminal:${name}.${terminal}`;
        return { id, name: terminal, group, wired: wired.has(id) };
      }),
    ),
  });
  const drive = { signal: 'PUL+ PUL- DIR+ DIR- ENA+ ENA-', power: 'V+ V-', motor: 'A+ A- B+ B-' };
  const parts = [
    part('mains', 'mains', 'Supply network 230 V 50 Hz', { '': 'L N PE' }),
    part('breaker-1', 'breaker', 'Circuit breaker C10', { '': '1 2' }, 'cabinet'),
    part('earth-bar', 'terminal-strip', 'Earth bar', { '': '1 2 3 4 5' }, 'cabinet'),
    part('logic-psu', 'supply', 'Supply 24 V 2.5 A', { input: 'L N PE', output: 'V+ V-' }, 'cabinet'),
    part('motor-psu', 'supply', 'Supply 48 V 7.3 A', { input: 'L N PE', output: 'V+ V-' }, 'cabinet'),
    part(
      'panel',
      'controller',
      'Four-axis panel controller',
      {
        power: 'DC+ DC- PE',
        axes: '5V XP XD YP YD ZP ZD AP AD',
        inputs: '24S XF XN XH YF YN YH ZF PR ES C-',
        spindle: 'G SV S1 S2 S3',
        handwheel: 'HA HB',
      },
      'front door',
    ),
    ...['x', 'y', 'z', 'a'].map((axis) =>
      part(`drive-${axis}`, 'drive', 'Stepper drive 50 V 5 A', drive, 'cabinet'),
    ),
    ...['x', 'y', 'z', 'a'].map((axis) =>
      part(`motor-${axis}`, 'motor', 'Stepper motor 57 mm 2 N.m', { '': 'A+ A- B+ B-' }, 'gantry'),
    ),
    part(
      'converter-1',
      'converter',
      'Frequency converter 1.5 kW',
      { input: 'L N PE', control: 'AI AC FWD REV COM', output: 'U V W PE2' },
      'cabinet',
    ),
    part('spindle-1', 'spindle', 'Spindle motor 1.5 kW', { '': 'U V W PE' }, 'gantry'),
    ...switches.map((name) => part(name, 'switch', 'Roller switch', { '': '1 2' }, 'gantry')),
    part('probe-1', 'probe', 'Touch probe', { '': 'BN BU BK' }, 'table'),
    part('stop-button', 'emergency-stop', 'Emergency stop button', { '': '11 12 21 22' }, 'front door'),
    part('wheel-1', 'handwheel', 'Handwheel 100', { '': '0V V A B' }),
  ];
  return { parts, links };
}
