import type { BoardPicture, CurePicture, PictureBar, PictureRow, TemperaturePicture } from '../../src/picture/models.ts';
import type { What } from '../../src/picture/palette.ts';

/** Monday, 2 March 2026, 10:10 in Berlin. */
export const NOW = Date.parse('2026-03-02T10:10:00+01:00');
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** A bar from and until so many minutes after now. */
const bar = (from: number, until: number, what: What, title = ''): PictureBar => ({
  from: NOW + from * MINUTE,
  until: NOW + until * MINUTE,
  what,
  title,
});

const row = (more: Partial<PictureRow> = {}): PictureRow => ({
  name: 'Lion head',
  who: '@dana',
  due: 'Coat 3 at 10:45 (in 35 min), by 13:00',
  state: 'hands',
  trouble: '',
  bars: [
    bar(-130, -110, 'done', 'Seal'),
    bar(-110, -85, 'wait'),
    bar(-85, -70, 'done', 'Coat 1'),
    bar(-70, -25, 'wait'),
    bar(-25, -10, 'done', 'Coat 2'),
    bar(-10, 35, 'wait'),
    bar(35, 50, 'hands', 'Coat 3'),
    bar(50, 95, 'wait'),
    bar(95, 110, 'hands', 'Coat 4'),
    bar(110, 1070, 'wait'),
    bar(1070, 1100, 'hands', 'Trim the flange'),
    bar(1100, 1120, 'hands', 'Wax'),
    bar(1120, 1180, 'hands', 'Shell'),
    bar(1180, 2620, 'wait'),
    bar(2620, 2650, 'hands', 'Take the mould off'),
  ],
  window: bar(35, 170, 'window'),
  ...more,
});

const day = (offset: number, from: number, until: number) => ({
  from: NOW - 10 * MINUTE - 10 * HOUR + offset * 24 * HOUR + from * HOUR,
  until: NOW - 10 * MINUTE - 10 * HOUR + offset * 24 * HOUR + until * HOUR,
});
const days = Array.from({ length: 24 }, (_, index) => index - 1);
const nights = days.map((each) => day(each, 19, 31));
const staffed = days.filter((each) => (each + 7) % 7 < 5).map((each) => day(each, 6, 22));

export const board = (more: Partial<BoardPicture> = {}): BoardPicture => ({
  now: NOW,
  zone: 'Europe/Berlin',
  title: 'Board, 10:10',
  headline: 'Lion head: Coat 3 at 10:45 (in 35 min), by 13:00',
  lines: [],
  trouble: '',
  marks: [],
  rows: [row()],
  staffed,
  nights,
  scale: 'near-first',
  ...more,
});

const STATES: readonly What[] = ['hands', 'go', 'begun', 'missed', 'held', 'touch', 'hands', 'hands', 'go', 'hands'];
const NAMES = [
  'Lion head',
  'The large relief of the town hall’s south portal, second part from the left',
  'Heron',
  'Donaudampfschifffahrtsgesellschaftskapitänsmützenhalterung',
  'Ziergiebel <b>&"links"</b>',
  'Hand of the donor',
  'Großer Kürbis 🎃',
  'Lion’s left paw with its claws out',
  'תבנית אריה',
  'Acanthus leaf, corner piece, set of four',
];
const DUES: readonly string[] = [
  'Coat 3 at 10:45 (in 35 min), by 13:00',
  'Coat 2 now, by 12:30',
  'Shell coat 1, at work, by 10:40',
  'Coat 4: window missed, decide',
  'on hold: waits for the new batch of rubber',
  'touch it now, before Coat 2',
  'Take the mould off at Tue 07:40 (in 21 h)',
  'Trim the flange at 16:00 (in 5 h 50 min)',
  'Wax now',
  'Coat 1 at 10:20 (in 10 min)',
];

const tenRows: readonly PictureRow[] = NAMES.map((name, index) => {
  const state = STATES[index] ?? 'hands';
  const shift = index * 17 - 60;
  const next: PictureBar[] =
    state === 'touch'
      ? [bar(-40, 30, 'touch', 'touch it')]
      : [
          bar(-60 - index, -45, 'done', 'Coat 1'),
          bar(-45, Math.max(shift, 0), 'wait'),
          bar(Math.max(shift, 0), Math.max(shift, 0) + 15, state, 'Coat 2'),
        ];
  const later = [
    bar(1100, 1130, 'hands', 'Trim the flange'),
    bar(1130, 1300 + index * 300, 'wait'),
    bar(1300 + index * 300, 1330 + index * 300, 'hands', 'Take the mould off'),
  ];
  return row({
    name,
    who: index % 3 === 0 ? '@kim' : '@dana with a long name',
    due: DUES[index] ?? '',
    state,
    bars: [...next, ...later],
    window: state === 'missed' ? bar(-150, -20, 'missed') : state === 'go' ? bar(-20, 130, 'window') : null,
  });
});

/** Three weeks with a coat each of the first days. */
const weeks = row({
  name: 'Fountain basin',
  due: 'Coat 2 at 13:30 (in 3 h 20 min)',
  bars: Array.from({ length: 21 }, (_, index) => [
    bar(200 + index * 1440, 230 + index * 1440, 'hands', `Coat ${index + 2}`),
    bar(230 + index * 1440, 200 + (index + 1) * 1440, 'wait'),
  ]).flat(),
  window: bar(200, 900, 'window'),
});

const wait = 'nobody on shift 12:00–Tue 08:00';

/** One whose next but one coat finds no place, and one whose next does not. */
const troubled: readonly PictureRow[] = [
  row({
    name: 'Vase',
    trouble: `Coat 4 does not fit: ${wait}`,
    bars: [
      bar(-25, -10, 'done', 'Coat 2'),
      bar(-10, 35, 'wait'),
      bar(35, 50, 'hands', 'Coat 3'),
      bar(50, 95, 'wait'),
      bar(95, 110, 'unfit', 'Coat 4'),
      bar(110, 600, 'wait'),
      bar(600, 630, 'earliest', 'Trim the flange'),
      bar(630, 650, 'earliest', 'Wax'),
    ],
  }),
  row({
    due: '',
    state: 'unfit',
    trouble: `Coat 2 does not fit: ${wait}`,
    bars: [
      bar(-40, -25, 'done', 'Coat 1'),
      bar(-25, 20, 'wait'),
      bar(20, 35, 'unfit', 'Coat 2'),
      bar(80, 95, 'earliest', 'Coat 3'),
    ],
    window: bar(20, 155, 'window'),
  }),
];

export const boards = {
  trouble: board({
    title: 'Board, 10:10, 2 open jobs',
    headline: 'Vase: Coat 3 at 10:45 (in 35 min), by 13:00',
    trouble: `Vase: Coat 4 does not fit: ${wait}`,
    rows: troubled,
  }),
  promised: board({
    title: 'Plan: Lion head',
    headline: 'Ready 14:00',
    trouble: 'Wanted by 13:00: 1 h too late',
    scale: 'even',
    marks: [{ at: NOW + 170 * MINUTE, word: 'promised' }],
    rows: [
      row({ name: 'Coat 3', who: '', state: null, due: '10:45, by 13:00', bars: [bar(35, 50, 'hands'), bar(50, 230, 'wait')] }),
    ],
  }),
  empty: board({ headline: 'Nothing is going on here', lines: ['Start with /job start.'], rows: [] }),
  one: board(),
  ten: board({ title: 'Board, 10:10, 10 open jobs', rows: tenRows }),
  weeks: board({ headline: 'Fountain basin: Coat 2 at 13:30 (in 3 h 20 min)', rows: [weeks] }),
  plan: board({
    title: 'Plan: Lion head',
    headline: 'Ready Wed 07:40',
    scale: 'even',
    rows: row()
      .bars.filter(({ what }) => what !== 'wait')
      .map((each, index) =>
        row({
          name: each.title,
          who: '',
          state: null,
          due: `Mon 10:${10 + index}, by 12:${10 + index}`,
          bars: [
            { ...each, title: '', what: 'hands' },
            { ...each, title: '', from: each.until, until: each.until + 45 * MINUTE, what: 'wait' },
          ],
          window: { ...each, until: each.until + 2 * HOUR, what: 'window', title: '' },
        }),
      ),
  }),
} satisfies Record<string, BoardPicture>;

const stretch = (from: number, until: number, degrees: number, read: boolean) => ({
  from: NOW + from * HOUR,
  until: NOW + until * HOUR,
  degrees,
  read,
});

export const temperature: TemperaturePicture = {
  now: NOW,
  zone: 'Europe/Berlin',
  title: 'Temperature, 10:10',
  headline: '17.5 °C, read at 10:00',
  unit: '°C',
  readings: [
    { at: NOW - 26 * HOUR, degrees: 21 },
    { at: NOW - 20 * HOUR, degrees: 22.5 },
    { at: NOW - 2 * HOUR, degrees: 14 },
    { at: NOW - HOUR / 6, degrees: 17.5 },
  ],
  course: [
    stretch(-26, -20, 21, true),
    stretch(-20, -2, 22.5, true),
    stretch(-2, -1 / 6, 14, true),
    stretch(-1 / 6, 9, 17.5, true),
    stretch(9, 21, 13, false),
    stretch(21, 30, 20, false),
  ],
  usable: { from: 15, until: 32, words: 'made for 15 to 32 °C' },
  nights,
  moved: [
    { words: 'Lion head: Trim the flange opens at Tue 09:50, 2 h 10 min later', was: NOW + 21.5 * HOUR, is: NOW + 23.67 * HOUR },
    { words: 'Heron: Coat 3 opens at 10:50, 5 min later', was: NOW + 35 * MINUTE, is: NOW + 40 * MINUTE },
  ],
};

export const cure: CurePicture = {
  title: 'Waits, 10:10',
  headline: 'Heron: Coat 3 opens at 10:45',
  waits: [
    { name: 'Heron: Coat 2', words: 'Coat 3 opens at 10:45 (in 35 min), by 13:00', sharePercent: 22, state: 'hands' },
    { name: 'Lion head: Coat 4', words: 'Trim the flange opens at Tue 07:40 (in 21 h)', sharePercent: 3, state: 'hands' },
    {
      name: 'The large relief of the town hall’s south portal, second part from the left: Coat 1',
      words: 'Coat 2 now, by 12:30',
      sharePercent: 100,
      state: 'go',
    },
    { name: 'Paw: Shell', words: 'touch it now, before Take the mould off', sharePercent: null, state: 'touch' },
  ],
};
