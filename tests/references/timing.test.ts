import { feedAtPulseRate } from '../../server/core/motion/feed.ts';
import { channelFrequency, countsPerTurn } from '../../server/core/motion/handwheel.ts';
import { pulsesPerTravel, resolution } from '../../server/core/motion/pulses.ts';
import { period, topPulseRate } from '../../server/core/motion/timing.ts';
import { checkRows, setAside } from './rows.ts';
import { DEG, RPM, TURN, US } from './units.ts';

const practice = 'common practice, no source';
const topRate = (on: number, off: number) => topPulseRate({}, { leastOn: on, leastOff: off }) / 1e3;

checkRows(
  'Pulse timing (7.1)',
  [
    {
      id: 'N377',
      source: 'IMD80',
      what: 'kHz, an input that takes 250 kHz caps an output that gives more',
      value: topPulseRate({ topRate: 1e6 }, { topRate: 250e3 }) / 1e3,
      published: '250',
    },
    {
      id: 'N379',
      source: 'IMD80',
      what: 'us period at 80 kHz',
      value: period(80e3) / US,
      published: '12.5',
      recomputed: 12.5,
    },
    {
      id: 'N380',
      source: 'MEM',
      what: 'kHz, on and off 2.5 us',
      value: topRate(2.5 * US, 2.5 * US),
      recomputed: 200,
      standing: practice,
    },
    {
      id: 'N382',
      source: 'MEM',
      what: 'kHz, on and off 1 us',
      value: topRate(1 * US, 1 * US),
      recomputed: 500,
      standing: practice,
    },
    {
      id: 'N383',
      source: 'MEM',
      what: 'kHz, on and off 0.5 us',
      value: topRate(0.5 * US, 0.5 * US),
      recomputed: 1000,
      standing: practice,
    },
  ],
  5,
);

setAside({
  N374: '715 ns least pulse of one servo input: a datasheet figure, from which nothing is computed',
  N376: '1 us direction hold of one servo input: a datasheet figure, from which nothing is computed',
});

checkRows(
  'Quadrature (7.4)',
  [
    {
      id: 'N395',
      source: 'RFT',
      what: 'counts per turn, 500 cycles',
      value: countsPerTurn(500),
      published: '2000',
      recomputed: 2000,
    },
    {
      id: 'N397',
      source: 'RFT',
      what: 'deg per count, 500 cycles, 20:1',
      value: resolution(pulsesPerTravel(countsPerTurn(500), 20, TURN)) / DEG,
      published: '0.009',
      recomputed: 0.009,
    },
    {
      id: 'N398',
      source: 'RFT',
      what: 'kHz of a channel, 500 cycles, 3000 rpm',
      value: channelFrequency(500, 3000 * RPM) / 1e3,
      published: '25',
      recomputed: 25,
    },
    {
      id: 'N400',
      source: 'SEX',
      what: 'rpm for one count per ms, 4000 counts per turn',
      value: feedAtPulseRate(1e3, 4000 / TURN) / RPM,
      published: '15',
      recomputed: 15,
    },
    {
      id: 'N401',
      source: 'MEM',
      what: 'counts per turn of a handwheel of 100 cycles',
      value: countsPerTurn(100),
      recomputed: 400,
      standing: practice,
    },
  ],
  5,
);
