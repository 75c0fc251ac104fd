import { describe, expect, test } from 'vitest';
import { fold } from '../../src/bench/fold.ts';
import { undo } from '../../src/bench/undo.ts';
import { addNote, check, close, decideMissed, done, hold, resume } from '../../src/job/decide.ts';
import { nextStep } from '../../src/job/state.ts';
import { isRefusal, type Refusal } from '../../src/words/refusal.ts';
import { closed, decided, did, given, held, noted, poured, resumed, STEPS, started, t, told, touched } from '../support/given.ts';

const bare = { step: null, note: null, early: false, begun: null };
const first = given(started(), did('seal', '08:30'), did('coat-1', '09:00'));
const people = (refusal: Refusal) => refusal.message.flatMap((span) => (span.as === 'person' ? [span.id] : []));
const times = (refusal: Refusal) => refusal.message.flatMap((span) => (span.as === 'time' ? [span.at] : []));

describe('done', () => {
  test('in order', () => {
    given(started())
      .when((job) => done(job, bare, told('08:30')))
      .yields({ type: 'StepDone', step: 'seal', at: t('08:30'), enteredAt: t('08:30'), by: 'dana', offPlan: null });
    first.when((job) => done(job, bare, told('09:45'))).yields({ type: 'StepDone', step: 'coat-2' });
    first.when((job) => done(job, { ...bare, step: 'COAT 2' }, told('12:00'))).yields({ type: 'StepDone', step: 'coat-2' });
  });

  test('the last step finishes the job', () => {
    const finished = given(started('08:00', { steps: STEPS.slice(4) }), did('trim', '08:20'))
      .when((job) => done(job, { ...bare, note: 'wax is low' }, told('08:30')))
      .yields({ type: 'StepDone', step: 'wax', note: 'wax is low' });
    expect(finished.job.status).toBe('finished');
    expect(nextStep(finished.job)).toBeNull();
    expect(finished.job.notes.map((note) => note.text)).toEqual(['wax: wax is low']);
    finished.when((job) => done(job, bare, told('09:00'))).refuses('job-closed');
  });

  test('in the wrong order', () => {
    const refusal = first.when((job) => done(job, { ...bare, step: 'coat-3' }, told('09:50'))).refuses('out-of-order');
    expect(refusal.example).toContain('step:coat-2');
  });

  test('a step that there is not', () => {
    const refusal = first.when((job) => done(job, { ...bare, step: 'coat-22' }, told('09:50'))).refuses('unknown-step');
    expect(refusal.example).toBe('/done job:lion step:coat-2');
  });

  test('already done says who did it and when, also on a job that is closed', () => {
    for (const history of [first, first.and(closed('09:30'))]) {
      const refusal = history
        .when((job) => done(job, { ...bare, step: 'coat-1' }, told('09:50', { by: 'kim' })))
        .refuses('already-done');
      expect([people(refusal), times(refusal)]).toEqual([['dana'], [t('09:00')]]);
    }
  });

  test('too soon says who logged the coat before, when, and when it opens', () => {
    const refusal = first.when((job) => done(job, bare, told('09:30', { by: 'kim' }))).refuses('too-soon');
    expect([people(refusal), times(refusal)]).toEqual([['dana'], [t('09:00'), t('09:45')]]);
    expect(refusal.example).toBe('/done job:lion step:coat-2 early:yes');
  });

  test('a minute early is nothing, two are a deviation that early:yes records', () => {
    first.when((job) => done(job, bare, told('09:44'))).yields({ type: 'StepDone', offPlan: null });
    first.when((job) => done(job, bare, told('09:43'))).refuses('too-soon');
    const early = first
      .when((job) => done(job, { ...bare, early: true }, told('09:43')))
      .yields({ type: 'StepDone', step: 'coat-2', offPlan: 'early' });
    expect(early.job.deviations).toMatchObject([{ by: 'dana', at: t('09:43'), text: 'coat-2 logged before its window opened' }]);
    first.when((job) => done(job, { ...bare, early: true }, told('10:00'))).yields({ type: 'StepDone', offPlan: null });
  });

  test('a missed window asks for a decision with two ways', () => {
    const refusal = first.when((job) => done(job, bare, told('12:46'))).refuses('window-missed');
    expect(times(refusal)).toEqual([t('12:00')]);
    expect(refusal.ways.map((way) => [way.command, way.options])).toEqual([
      ['missed', { job: 'lion', choice: 'abrade' }],
      ['missed', { job: 'lion', choice: 'scrap' }],
    ]);
    first.when((job) => done(job, { ...bare, early: true }, told('12:01'))).refuses('window-missed');
  });

  test('backdated into the window it counts, however late it is told', () => {
    first
      .when((job) => done(job, bare, told('14:00', { at: '11:50' })))
      .yields({ type: 'StepDone', at: t('11:50'), enteredAt: t('14:00') });
    first.when((job) => done(job, bare, told('14:00', { at: '12:10' }))).refuses('window-missed');
    first.when((job) => done(job, bare, told('14:00', { at: '09:20' }))).refuses('too-soon');
  });

  test('never before the step that it follows', () => {
    const refusal = first
      .when((job) => done(job, { ...bare, early: true }, told('10:00', { at: '08:50' })))
      .refuses('out-of-order');
    expect(times(refusal)).toEqual([t('09:00')]);
  });

  test('a cup poured in time keeps the window, one poured late does not', () => {
    first
      .and(poured('cup-1', 'coat-2', '11:55'))
      .when((job) => done(job, bare, told('12:10')))
      .yields({ type: 'StepDone' });
    first
      .and(poured('cup-1', 'coat-2', '12:01'))
      .when((job) => done(job, bare, told('12:10')))
      .refuses('window-missed');
  });

  test('two people press at once: the second is told of the first, and does not log the next step', () => {
    const trimmed = given(started('08:00', { steps: STEPS.slice(4) }), did('trim', '08:20'));
    const refusal = trimmed.when((job) => done(job, bare, told('08:21', { by: 'kim' }))).refuses('just-logged');
    expect([people(refusal), times(refusal)]).toEqual([['dana'], [t('08:20')]]);
    expect(refusal.example).toBe('/done job:lion step:wax');
    trimmed.when((job) => done(job, { ...bare, step: 'wax' }, told('08:21', { by: 'kim' }))).yields({ step: 'wax' });
    trimmed.when((job) => done(job, bare, told('08:21'))).yields({ step: 'wax' });
    trimmed.when((job) => done(job, bare, told('08:22', { by: 'kim' }))).yields({ step: 'wax' });
  });

  test('on hold, closed', () => {
    const refusal = first
      .and(held('09:10'))
      .when((job) => done(job, bare, told('09:50')))
      .refuses('on-hold');
    expect(refusal.ways).toMatchObject([{ command: 'job resume', options: { job: 'lion' } }]);
    first
      .and(closed('09:10'))
      .when((job) => done(job, bare, told('09:50')))
      .refuses('job-closed');
    first
      .and(held('09:10'), resumed('09:20'))
      .when((job) => done(job, bare, told('09:50')))
      .yields({ step: 'coat-2' });
  });
});

describe('check', () => {
  test('"not yet" opens the window later', () => {
    // A quarter of 45 minutes, after the touch.
    const wet = first.when((job) => check(job, 'not-yet', told('09:45'))).yields({ type: 'TackChecked', step: 'coat-1' });
    const refusal = wet.when((job) => done(job, bare, told('09:50'))).refuses('too-soon');
    expect(times(refusal)).toContain(t('09:57'));
    wet.when((job) => done(job, bare, told('09:57'))).yields({ step: 'coat-2', offPlan: null });
  });

  test('"ready" opens it at once', () => {
    first
      .when((job) => check(job, 'ready', told('09:20')))
      .yields({ type: 'TackChecked', result: 'ready' })
      .when((job) => done(job, bare, told('09:21')))
      .yields({ step: 'coat-2', offPlan: null });
  });

  test('"past" asks for a decision, from that very minute on', () => {
    const past = first.when((job) => check(job, 'past', told('10:30'))).yields({ result: 'past' });
    for (const now of ['10:30', '10:31'])
      expect(past.when((job) => done(job, bare, told(now))).refuses('window-missed').ways).toHaveLength(2);
    past.when((job) => decideMissed(job, 'abrade', told('10:30'))).yields({ type: 'MissedWindowDecided', choice: 'abrade' });
    past.when((job) => done(job, bare, told('10:40', { at: '10:20' }))).yields({ at: t('10:20') });
  });

  test('"past" never makes a window longer', () => {
    first
      .and(touched('coat-1', 'past', '13:00'))
      .when((job) => done(job, bare, told('13:10', { at: '12:30' })))
      .refuses('window-missed');
  });

  test('a cured part can be touched too; a fixed wait, bare handiwork and a job without a coat cannot', () => {
    const shell = first.and(did('coat-2', '10:00'), did('coat-3', '11:00'));
    shell.when((job) => check(job, 'not-yet', told('12:00'))).yields({ step: 'coat-3' });
    given(started())
      .when((job) => check(job, 'ready', told('08:10')))
      .refuses('nothing-to-check');
    given(started(), did('seal', '08:30'))
      .when((job) => check(job, 'ready', told('08:40')))
      .refuses('nothing-to-check');
    given(started('08:00', { steps: STEPS.slice(4) }), did('trim', '08:20'))
      .when((job) => check(job, 'ready', told('08:30')))
      .refuses('nothing-to-check');
  });

  test('not before the coat, not on hold, not on a closed job', () => {
    first.when((job) => check(job, 'ready', told('09:30', { at: '08:59' }))).refuses('out-of-order');
    first
      .and(held('09:10'))
      .when((job) => check(job, 'ready', told('09:30')))
      .refuses('on-hold');
    first
      .and(closed('09:10'))
      .when((job) => check(job, 'ready', told('09:30')))
      .refuses('job-closed');
  });
});

describe('a missed window', () => {
  test('nothing to decide while it is open', () => {
    first.when((job) => decideMissed(job, 'abrade', told('11:59'))).refuses('no-missed-window');
    given(started())
      .when((job) => decideMissed(job, 'scrap', told('20:00')))
      .refuses('no-missed-window');
    first
      .and(poured('cup-1', 'coat-2', '11:50'))
      .when((job) => decideMissed(job, 'scrap', told('12:20')))
      .refuses('no-missed-window');
  });

  test('abraded: the step goes on from then, whenever it suits, and the record says so', () => {
    const abraded = first
      .when((job) => decideMissed(job, 'abrade', told('13:00')))
      .yields({ type: 'MissedWindowDecided', step: 'coat-2', choice: 'abrade' });
    expect(nextStep(abraded.job)?.plan.id).toBe('coat-2');
    expect(abraded.job.deviations).toMatchObject([{ at: t('13:00'), text: expect.stringContaining('abraded') }]);
    abraded.when((job) => done(job, bare, told('12:00', { at: '11:00', day: 1 }))).yields({ step: 'coat-2', offPlan: null });
    abraded.when((job) => decideMissed(job, 'abrade', told('13:05'))).refuses('no-missed-window');
  });

  test('scrapped: the coat that cured too far is done again, and its own window counts anew', () => {
    const scrapped = first.when((job) => decideMissed(job, 'scrap', told('13:00'))).yields({ step: 'coat-2', choice: 'scrap' });
    expect(nextStep(scrapped.job)?.plan.id).toBe('coat-1');
    const again = scrapped.when((job) => done(job, bare, told('13:30'))).yields({ step: 'coat-1', offPlan: null });
    again.when((job) => done(job, bare, told('14:00'))).refuses('too-soon');
    again.when((job) => done(job, bare, told('16:31'))).refuses('window-missed');
  });

  test('a cup poured too late does not count for the coat that is done again', () => {
    first
      .and(poured('cup-1', 'coat-2', '12:10'), decided('coat-2', 'scrap', '12:20'), did('coat-1', '12:40'))
      .when((job) => done(job, bare, told('16:00')))
      .refuses('window-missed');
  });

  test('not on hold', () => {
    first
      .and(held('12:10'))
      .when((job) => decideMissed(job, 'abrade', told('13:00')))
      .refuses('on-hold');
  });
});

describe('hold, resume, close, note', () => {
  test('hold and resume', () => {
    first.when((job) => hold(job, 'no material', told('09:10'))).yields({ type: 'JobHeld', reason: 'no material' });
    first
      .and(held('09:10'))
      .when((job) => hold(job, null, told('09:20')))
      .refuses('on-hold');
    first
      .and(held('09:10'))
      .when((job) => resume(job, told('09:20')))
      .yields({ type: 'JobResumed' });
    first.when((job) => resume(job, told('09:20'))).refuses('not-on-hold');
    first
      .and(closed('09:10'))
      .when((job) => hold(job, null, told('09:20')))
      .refuses('job-closed');
  });

  test('on hold the material goes on curing', () => {
    first
      .and(held('09:10'), resumed('12:30'))
      .when((job) => done(job, bare, told('12:31')))
      .refuses('window-missed');
  });

  test('close', () => {
    const over = first.when((job) => close(job, 'on shelf 3', told('09:10'))).yields({ type: 'JobClosed', text: 'on shelf 3' });
    expect(over.job).toMatchObject({ status: 'closed', notes: [{ text: 'on shelf 3' }] });
    over.when((job) => close(job, null, told('09:20'))).refuses('job-closed');
    over.when((job) => addNote(job, 'too thin', told('09:30'))).yields({ type: 'NoteAdded', text: 'too thin' });
  });
});

describe('undo', () => {
  const said = { by: 'kim', at: t('10:00'), now: t('10:00') };
  const target = (history: typeof first, job = true) => {
    const undone = undo(history.log, job ? { job: history.job } : null, said);
    return isRefusal(undone) ? undone.code : undone.undone.seq;
  };

  test('takes back the last thing first, and nothing twice', () => {
    let history = first.and(noted('left ear runs thin', '09:10'));
    const seen = [];
    for (let tries = 0; tries < 5; tries += 1) {
      const undone = undo(history.log, null, { ...said, by: 'dana' });
      if (isRefusal(undone)) seen.push(undone.code);
      else {
        seen.push(undone.undone.type);
        history = history.and(...undone.events);
      }
    }
    expect(seen).toEqual(['NoteAdded', 'StepDone', 'StepDone', 'JobStarted', 'nothing-to-undo']);
    expect(fold(history.log).jobs.size).toBe(0);
  });

  test('of one job only what concerns it', () => {
    const two = first.and(started('09:10', { job: 'owl' }), did('seal', '09:20', { job: 'owl' }));
    expect([target(two), target(two, false)]).toEqual([3, 'nothing-to-undo']);
  });
});
