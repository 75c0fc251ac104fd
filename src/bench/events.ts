import { z } from 'zod';
import { jobEvent, speed, stamp, usable } from '../job/events.ts';
import { PING_KINDS } from '../job/pings.ts';
import { HAZARDS } from '../trade/material.ts';

/** What happened at one bench: its jobs' events, and what concerns the bench as a whole. One stream per channel. */
export const benchEvent = z.discriminatedUnion('type', [
  ...jobEvent.options,
  z.object({
    ...stamp,
    type: z.literal('CupStarted'),
    cup: z.string(),
    material: z.object({ id: z.string(), name: z.string() }),
    grams: z.number().nullable(),
    potLifeMinutes: z.number(),
    speed,
    usable,
    job: z.string().nullable(),
    step: z.string().nullable(),
    /** Of a cup for no job that a button started: which of its button's cups it is. */
    nth: z.number().optional(),
  }),
  z.object({
    ...stamp,
    type: z.literal('CupEnded'),
    cup: z.string(),
    how: z.enum(['spent', 'discarded']),
    job: z.string().nullable(),
  }),
  z.object({
    ...stamp,
    type: z.literal('HandoverOffered'),
    to: z.array(z.string()),
    jobs: z.array(z.string()),
    note: z.string().nullable(),
  }),
  z.object({ ...stamp, type: z.literal('HandoverTaken'), jobs: z.array(z.string()) }),
  z.object({
    ...stamp,
    type: z.literal('MixWeighed'),
    material: z.string(),
    grams: z.number(),
    job: z.string().nullable(),
    /** Those whose caution was shown in full. */
    cautions: z.array(z.enum(HAZARDS)),
  }),
  z.object({ ...stamp, type: z.literal('TemperatureRead'), celsius: z.number(), humidityPercent: z.number().nullable() }),
  /** What the days and nights to come will be like; both null: as it was read last, again. */
  z.object({
    ...stamp,
    type: z.literal('TemperatureExpected'),
    dayCelsius: z.number().nullable(),
    nightCelsius: z.number().nullable(),
    day: z.object({ fromMinute: z.number(), untilMinute: z.number() }),
    zone: z.string(),
  }),
  z.object({ ...stamp, type: z.literal('PingSnoozed'), ping: z.string(), until: z.number() }),
  z.object({
    ...stamp,
    type: z.literal('PingSent'),
    ping: z.string(),
    kind: z.enum(PING_KINDS),
    job: z.string().nullable(),
    dueAt: z.number(),
    /** The number of the last event that whoever sent it knew of; null in records that do not say. */
    seenSeq: z.number().nullable().default(null),
  }),
  z.object({ ...stamp, type: z.literal('Undone'), target: z.number() }),
]);
export type BenchEvent = z.infer<typeof benchEvent>;

/** What `/undo` may take back: what a person told. */
export const UNDOABLE: ReadonlySet<BenchEvent['type']> = new Set([
  'JobStarted',
  'JobPlanned',
  'HandsAsked',
  'StepDone',
  'TackChecked',
  'MissedWindowDecided',
  'NoteAdded',
  'JobHeld',
  'JobResumed',
  'JobClosed',
  'CupStarted',
  'CupEnded',
  'HandoverTaken',
  'HandoverOffered',
  'TemperatureRead',
  'TemperatureExpected',
]);
