import { expect, test } from 'vitest';
import type { Cause } from '../../src/bench/planning/cause.ts';
import type { Change } from '../../src/bench/planning/changes.ts';
import { extraTyped, momentTyped } from '../../src/cards/as-typed.ts';
import { causeText, changeLabel } from '../../src/cards/plan-trouble.ts';
import { wallText } from '../../src/cards/wall-text.ts';
import { plainText } from '../../src/chat/plain.ts';
import { step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

const NOW = t('08:00');
const WORKS = studio({ shifts: { hours: [hours('09:00-18:00')], days: [1, 2, 3, 4, 5] } });
const said = (cause: Cause, title = 'Coat') => plainText(causeText(title, cause, WORKS), { zone: 'Etc/UTC', now: NOW });
const label = (change: Change) => changeLabel(change, studio(), NOW);
const window = { from: t('17:10'), until: t('18:40') };

test.each<[Cause, string]>([
  [
    { kind: 'nobody', window, goneAt: t('17:00'), backAt: t('08:00', 1) },
    'Coat can only begin between 17:10 and 18:40, and nobody is on shift from 17:00 until Tue 08:00.',
  ],
  [
    { kind: 'nobody', window: { from: t('17:10'), until: t('17:10') }, goneAt: null, backAt: null },
    'Coat can only begin at 17:10, and nobody is on shift.',
  ],
  [
    { kind: 'too-long', window, handsMinutes: 90, goneAt: t('18:00') },
    'Coat takes 1 h 30 min and can only begin between 17:10 and 18:40, and the shift ends at 18:00.',
  ],
  [
    { kind: 'too-long', window, handsMinutes: 90, goneAt: t('17:30') },
    'Coat takes 1 h 30 min and can only begin between 17:10 and 18:40, and nobody is there from 17:30 on.',
  ],
  [
    {
      kind: 'busy',
      window: { from: t('17:10'), until: null },
      by: [{ from: t('17:00'), until: t('18:00'), job: 'b', name: 'Bear', title: 'Wax' }],
    },
    'Coat can only begin from 17:10 on, and all hands are at work then: Wax of Bear (17:00).',
  ],
  [
    { kind: 'late', readyAt: t('09:20', 2), readyBy: t('16:00', 1) },
    'It can be ready no earlier than Wed 09:20, 17 h 20 min after Tue 16:00.',
  ],
])('%j', (cause, expected) => expect(said(cause)).toBe(expected));

test('a temperature at which nobody can tell when the next step may begin, or when the last one is ready', () => {
  const after = step('first', null, {
    title: 'First',
    usable: { fromCelsius: 15, untilCelsius: 32 },
    material: { id: 'r', name: 'Rubber' },
  });
  const cause: Cause = { kind: 'outside', celsius: 8, after };
  expect(said(cause)).toBe('The bench is at 8 °C, and Rubber is made for 15 °C to 32 °C: no clock can tell when Coat may begin.');
  expect(said(cause, 'First')).toMatch(/no clock can tell when it is ready\.$/);
});

test.each<[Change, string]>([
  [{ kind: 'start', at: t('15:30'), laterMinutes: -15 }, 'Start 15 min earlier: 15:30'],
  [{ kind: 'start', at: t('08:00', 1), laterMinutes: 840 }, 'Start 14 h later: Tue 08:00'],
  [{ kind: 'hands', from: t('16:00'), until: t('16:20'), next: 'after' }, 'One person until 16:20'],
  [{ kind: 'hands', from: t('07:40', 1), until: t('08:00', 1), next: 'before' }, 'One person from Tue 07:40'],
  [{ kind: 'hands', from: t('02:00', 1), until: t('02:15', 1), next: null }, 'One more person Tue 02:00-02:15'],
  [{ kind: 'room', celsius: 25, now: 21 }, 'Warm the room to 25 °C'],
  [{ kind: 'room', celsius: 18, now: 21 }, 'Cool the room to 18 °C'],
  [{ kind: 'room', celsius: 21, now: 21 }, 'Keep the room at 21 °C'],
  [{ kind: 'ready-by', at: t('09:20', 2) }, 'Ready by Wed 09:20'],
])('%j', (change, expected) => expect(label(change)).toBe(expected));

test('times by the wall clock of the studio, as options are typed', () => {
  // Europe/Berlin is an hour ahead of UTC in winter: across midnight, too.
  expect(extraTyped({ from: t('22:30'), until: t('23:30') }, 'Europe/Berlin')).toBe('2026-03-02 23:30-00:30');
  expect(momentTyped(t('23:30'), 'Europe/Berlin')).toBe('2026-03-03 00:30');
  expect(wallText(t('23:30'), 'Europe/Berlin', NOW)).toBe('Tue 00:30');
  expect(wallText(t('09:00', 7), 'Etc/UTC', NOW)).toBe('Mon 9 Mar 09:00');
});
