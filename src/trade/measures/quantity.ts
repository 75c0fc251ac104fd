/** Everything that people type about amounts and conditions, read into base units: one door to the readers beside it. */
export { parseAddedShare } from './added-share.ts';
export { parseAdditives } from './additives.ts';
export { parseAmount, parseQuantity } from './amount.ts';
export { parseDensity, parseDuration, parsePercent, parseRatePerMole, parseTemperature } from './conditions.ts';
export { parseArea, parseLength } from './dimensions.ts';
export { parsePoured } from './poured.ts';
export { parseArealWeight, parseMassRate, parsePressure, parsePrice } from './rates.ts';
export { parseScaleStep } from './scale-step.ts';
