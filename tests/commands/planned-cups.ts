import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { loadMaterials } from '../support/own-materials.ts';

/** What `/cups` says in numbers. */
export interface Cups {
  material: string;
  totalGrams: number;
  count: number;
  gramsEach: number;
  rateGramsPerMinute: number;
  rateFrom: string;
  potLifeMinutes: number;
  minutesEach: number;
  parts: { part: string; grams: number; scaleReading: number }[];
  clocks: { cup: number; mixAt: string; useBy: string }[];
}
export const cups = (message: MessageObject | undefined) => message?.data['cups'] as Cups;

/** Pot lives that make sums easy: a straight line from 10 min of 100 g to 6 min of 500 g. */
const LIST = `materials:
  - id: ledge-paste
    name: A paste of our own
    family: urethane
    use: [shell]
    parts: [{ part: A, density: 1.0 }, { part: B, density: 1.0 }]
    ratio: { weight: { A: 1, B: 1 } }
    tolerance: 5 %
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 10 min
    potLifeByMass: [{ mass: 500 g, potLife: 6 min }]
    cure: { law: q10, q10: 2 }
    hazards: [isocyanate]
    source: an invented example
`; /** Loads that list into the studio of whoever types. */
export const loadOwn = (type: (line: string) => Promise<MessageObject[]>): Promise<void> => loadMaterials(type, LIST);
