import type { JobPlan } from '../bench/planning/plan.ts';
import type { Studio } from '../bench/studio.ts';
import type { PlannedStep } from '../job/events.ts';
import { temperaturesText, temperatureText } from '../trade/measures/format.ts';
import { type Conditions, stretches } from '../trade/time/conditions.ts';
import { plain, say, type Text } from '../words/text.ts';

/** Where a plan counts on a temperature that a material is not made for, only expected as it may be: the first such. */
export function coldLine(plan: JobPlan, steps: readonly PlannedStep[], conditions: Conditions, { units }: Studio): Text[] {
  for (const [index, time] of plan.steps.entries()) {
    const step = steps.find(({ id }) => id === time.step);
    if (!step?.usable || !step.material || step.wait === null || step.wait.kind === 'fixed') continue;
    const { fromCelsius, untilCelsius } = step.usable;
    const until = plan.steps[index + 1]?.startsAt ?? plan.readyAt;
    let at = time.startsAt;
    for (const stretch of stretches(conditions, at)) {
      if (at >= until) break;
      if (stretch.celsius !== null && (stretch.celsius < fromCelsius || stretch.celsius > untilCelsius))
        return [
          say`It counts on ${plain(temperatureText(stretch.celsius, units))} after ${step.title}; ${step.material.name} is made for ${plain(temperaturesText(fromCelsius, untilCelsius, units))}: touch it before you go on.`,
        ];
      at = stretch.until;
    }
  }
  return [];
}
