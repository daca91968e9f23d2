/** The examples of the reference. They are held against the schemas by a test. */

export const EXAMPLE_MACHINE = `machine: Sundial engraver
revision: 1
about: One driven axis that engraves hour lines into slate.
mains: 230 V 50 Hz
conventions: { wire-colours: IEC }

parts:
  panel:   { sheet: sheets/one-axis-panel.part.yaml, set: { P1: 320 /mm } }
  supply:  { sheet: generic/supply-24v, at: cabinet }
  drive-x: { sheet: generic/microstep-drive-50v, set: { microsteps: 8, phase-current: 2.8 A } }
  motor-x: { sheet: generic/stepper-57mm-1nm, at: gantry }

wiring:
  - mains.L -> supply.L
  - mains.N -> supply.N
  - mains.PE -> supply.PE
  - supply.V+ -> panel.DC+, drive-x.V+       # one end to several: one link each
  - supply.V- -> panel.DC-, drive-x.V-
  - panel.5V -> drive-x.PUL+, drive-x.DIR+
  - panel.XP -> drive-x.PUL-
  - { link: panel.XD -> drive-x.DIR-, wire: 0.25 mm2 YE, length: 0.6 m, label: W7 }
  - cable: K1
    wire: 4 x 0.75 mm2 screened
    length: 2.5 m
    links:
      - drive-x.A+ -> motor-x.A+  BN
      - drive-x.A- -> motor-x.A-  BU
      - drive-x.B+ -> motor-x.B+  BK
      - drive-x.B- -> motor-x.B-  WH
    screen: supply.PE

axes:
  X:
    drive: drive-x
    motor: motor-x
    travel: 300 mm
    screw: { lead: 5 mm, root: 13 mm, length: 420 mm, ends: fixed-supported, efficiency: 90 % }
    mass: 6 kg
    feed: 1500 mm/min
    acceleration: 300 mm/s2
`;

export const EXAMPLE_SHEET = `part: One-axis panel
maker: none (generic)
class: controller
designator: A
source: invented for this page

terminals:
  power: [DC+, DC-]
  axis:  [5V, XP, XD]

circuits:
  supply:      { power-in: [DC+, DC-], voltage: 18..30 V, current: 0.4 A }
  logic:       { power-out: [5V, DC-], voltage: 5 V, current: 200 mA }
  x-pulse:     { sink-out: [XP, DC-], does: pulse X, drop: 0.3 V, current: 50 mA, top-rate: 100 kHz, on-time: 5 us }
  x-direction: { sink-out: [XD, DC-], does: direction X, drop: 0.3 V, current: 50 mA }

settings:
  P1: { is: pulses-per-length, axis: X, unit: /mm, decimals: 2, span: 1..5000 /mm }
  P2: { is: direction-lead, unit: us, span: 1..100 us, step: 1 us, default: 5 us }

facts:
  conductors-per-terminal: 2
`;
