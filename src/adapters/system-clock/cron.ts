import { type ScheduledTask, schedule } from 'node-cron';

/**
 * Rings at every time that one of the cron `expressions` names by the wall clock in `zone` (an IANA name); throws when it
 * cannot read one. A time that passed while the machine slept rings late, rather than never. Returns a function that
 * stops all of them.
 */
export function recurring(expressions: readonly string[], zone: string, ring: () => Promise<void>): () => void {
  const tasks: ScheduledTask[] = [];
  const stop = () => {
    for (const task of tasks.splice(0)) void task.destroy();
  };
  try {
    for (const expression of new Set(expressions)) {
      const task = schedule(expression, ring, { timezone: zone, suppressMissedWarning: true });
      task.on('execution:missed', ring);
      tasks.push(task);
    }
  } catch (error) {
    stop();
    throw error;
  }
  return stop;
}
