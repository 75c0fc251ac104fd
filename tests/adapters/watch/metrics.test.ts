import { expect, test } from 'vitest';
import { Metrics } from '../../../src/adapters/watch/metrics.ts';

/** The page as a record: `name{labels}` to its value. */
async function numbers(metrics: Metrics): Promise<Record<string, number>> {
  const { text } = await metrics.page();
  const lines = text.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  return Object.fromEntries(
    lines.map((line) => [line.slice(0, line.lastIndexOf(' ')), Number(line.slice(line.lastIndexOf(' ')))]),
  );
}

test('what happens is counted by its kind', async () => {
  const metrics = new Metrics();
  metrics.answered({ command: 'job start', how: 'answered', milliseconds: 40 });
  metrics.answered({ command: 'job start', how: 'answered', milliseconds: 2500 });
  metrics.answered({ command: 'mix', how: 'refused', milliseconds: 4000 });
  metrics.rang({ kind: 'recoat-open', how: 'channel', lateMilliseconds: 400 });
  metrics.rang({ kind: 'digest', how: 'direct', lateMilliseconds: -3 });
  metrics.rang({ kind: 'pot-low', how: 'held', lateMilliseconds: 90_000 });
  metrics.waiting(3);
  metrics.gateway(true);
  metrics.trouble('wake');
  metrics.trouble('wake');
  expect(await numbers(metrics)).toMatchObject({
    'coatbell_commands_total{command="job start",how="answered"}': 2,
    'coatbell_commands_total{command="mix",how="refused"}': 1,
    'coatbell_answer_seconds_bucket{le="0.05"}': 1,
    'coatbell_answer_seconds_bucket{le="2"}': 1,
    'coatbell_answer_seconds_bucket{le="3"}': 2,
    'coatbell_answer_seconds_bucket{le="+Inf"}': 3,
    coatbell_answer_seconds_sum: 6.54,
    'coatbell_pings_total{kind="recoat-open",how="channel"}': 1,
    'coatbell_pings_total{kind="digest",how="direct"}': 1,
    'coatbell_pings_total{kind="pot-low",how="held"}': 1,
    coatbell_ping_lateness_seconds_count: 2,
    coatbell_ping_lateness_seconds_sum: 0.4,
    coatbell_waiting_benches: 3,
    coatbell_gateway_up: 1,
    'coatbell_troubles_total{where="wake"}': 2,
  });
  metrics.gateway(false);
  metrics.waiting(0);
  expect(await numbers(metrics)).toMatchObject({ coatbell_gateway_up: 0, coatbell_waiting_benches: 0 });
});

test('the process itself is measured too, and two registries do not mix', async () => {
  const [one, other] = [new Metrics(), new Metrics()];
  one.waiting(1);
  other.waiting(2);
  const page = await numbers(one);
  expect(page['process_resident_memory_bytes']).toBeGreaterThan(1_000_000);
  expect(page['coatbell_waiting_benches']).toBe(1);
});

test('texts never become labels, and the number of series has an end', async () => {
  const metrics = new Metrics();
  metrics.answered({ command: 'left ear runs thin, says Dana "now"\n', how: 'broken', milliseconds: 1 });
  metrics.trouble('x'.repeat(50));
  for (let count = 0; count < 1000; count += 1) metrics.trouble(`where ${count}`);
  const page = await numbers(metrics);
  expect(page['coatbell_commands_total{command="other",how="broken"}']).toBe(1);
  const places = Object.entries(page).filter(([name]) => name.startsWith('coatbell_troubles_total'));
  expect(places).toHaveLength(201);
  expect(places.reduce((sum, [, count]) => sum + count, 0)).toBe(1001);
});
