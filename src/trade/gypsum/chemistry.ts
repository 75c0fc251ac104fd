/** Standard atomic weights in g/mol, as the international commission abridges them; from memory. */
const [HYDROGEN, OXYGEN, SULPHUR, CALCIUM] = [1.008, 15.999, 32.06, 40.078];
const WATER = 2 * HYDROGEN + OXYGEN;
const HEMIHYDRATE = CALCIUM + SULPHUR + 4 * OXYGEN + WATER / 2;

/**
 * Grams of water that a gram of plaster takes up for good as it sets, CaSO4·½H2O + 1½ H2O → CaSO4·2H2O: 0.1862. All other
 * water only makes it flow, and dries out. The powder counts as pure hemihydrate.
 */
export const WATER_TAKEN_UP = (1.5 * WATER) / HEMIHYDRATE;

/** Of set gypsum, CaSO4·2H2O, without its pores: the specific gravity in NIOSH's pocket guide, npgd0308. */
export const SET_GRAMS_PER_MILLILITRE = 2.32;
