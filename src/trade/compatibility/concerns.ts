import type { Material } from '../material.ts';
import { coatsBond, releaseBetween, usualRelease } from './release.ts';
import { inhibitorsAmong, isMoisture } from './substances.ts';
import type { Surface } from './surface.ts';

/** What a fresh mix is laid on: the model, or a material of the same job, which it is to bond to or to let go of. */
export type Contact =
  | { readonly on: 'surface'; readonly fresh: Material; readonly surface: Surface | null }
  | { readonly on: 'coat' | 'mould'; readonly fresh: Material; readonly under: Material };

/** Something to mind before two of a job's materials meet, or before one meets the model. */
export type Concern =
  /** What keeps the fresh mix from curing. `damp`: moisture alone, which drying cures. */
  | {
      readonly kind: 'inhibition';
      readonly fresh: Material;
      readonly under: Under;
      readonly by: readonly string[];
      readonly damp: boolean;
    }
  /** Nobody knows what the model carries. */
  | { readonly kind: 'test-patch'; readonly fresh: Material; readonly surface: Surface | null }
  /** The coat under it is of a kind that it does not hold on. */
  | { readonly kind: 'no-bond'; readonly fresh: Material; readonly under: Material }
  /** Its styrene dissolves the model. */
  | { readonly kind: 'dissolves'; readonly fresh: Material; readonly under: Surface }
  /** It gets hotter than what it lies on stands. */
  | {
      readonly kind: 'heat';
      readonly fresh: Material;
      readonly under: Under;
      readonly peakCelsius: number;
      readonly standsCelsius: number;
    }
  /** It must be kept from bonding. `seal`: pores are to be closed first; `release`: without one it bonds. */
  | {
      readonly kind: 'release';
      readonly fresh: Material;
      readonly under: Under;
      readonly seal: boolean;
      readonly release: boolean;
    };

/** A material, or the model as it was described. */
export type Under = Material | Surface;

/** The gravest first: what ruins the mould, then what ruins the model. */
const ORDER: readonly Concern['kind'][] = ['no-bond', 'inhibition', 'dissolves', 'heat', 'release', 'test-patch'];

/** What is to be minded of these contacts, the gravest first. Nothing where all is well. */
export const concernsOf = (contacts: readonly Contact[]): Concern[] =>
  contacts
    .flatMap((contact) => (contact.on === 'surface' ? onSurface(contact.fresh, contact.surface) : onMaterial(contact)))
    .sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));

function onSurface(fresh: Material, surface: Surface | null): Concern[] {
  // That a model must be dry goes without saying.
  if (surface === null) return fresh.inhibitedBy.every(isMoisture) ? [] : [{ kind: 'test-patch', fresh, surface }];
  const needed = surface.family === null ? bondsToSolid(fresh, surface) : releaseOn(fresh, surface) === 'needed';
  const seal = surface.porous && !surface.sealed;
  // Nobody releases gloves.
  const release = needed && !surface.released && !surface.gloves;
  const dissolves = surface.dissolvedBy === 'styrene' && (fresh.family === 'polyester' || fresh.hazards.includes('styrene'));
  return [
    ...inhibition(fresh, surface),
    ...(dissolves ? [{ kind: 'dissolves', fresh, under: surface } as const] : []),
    ...heat(fresh, surface),
    ...(surface.known && (seal || release) ? [{ kind: 'release', fresh, under: surface, seal, release } as const] : []),
    ...(surface.known ? [] : [{ kind: 'test-patch', fresh, surface } as const]),
  ];
}

const releaseOn = (fresh: Material, { family }: Surface) =>
  family === null
    ? null
    : fresh.release.needed.includes(family)
      ? 'needed'
      : fresh.release.notNeeded.includes(family)
        ? 'not-needed'
        : usualRelease(fresh.family, family);

/** On what is no moulding material: silicone lets go of all but glass, the others of nothing that is sure. */
const bondsToSolid = ({ family }: Material, { glassy }: Surface) =>
  family === 'silicone-tin' || family === 'silicone-platinum' ? glassy : family !== 'other';

function onMaterial({ on, fresh, under }: Extract<Contact, { on: 'coat' | 'mould' }>): Concern[] {
  if (on === 'coat' && fresh.id === under.id) return [];
  const release = on === 'mould' && releaseBetween(fresh, under) === 'needed';
  // A set plaster soaks up any resin or rubber; wet plaster has soap between.
  const seal = on === 'mould' && under.family === 'gypsum' && fresh.family !== 'gypsum';
  return [
    ...(on === 'coat' && !coatsBond(fresh.family, under.family) ? [{ kind: 'no-bond', fresh, under } as const] : []),
    ...inhibition(fresh, under),
    ...heat(fresh, under),
    ...(seal || release ? [{ kind: 'release', fresh, under, seal, release } as const] : []),
  ];
}

function heat(fresh: Material, under: Under): Concern[] {
  const [peakCelsius, standsCelsius] = [fresh.peakCelsius, under.standsCelsius];
  if (peakCelsius === null || standsCelsius === null || peakCelsius <= standsCelsius) return [];
  return [{ kind: 'heat', fresh, under, peakCelsius, standsCelsius }];
}

function inhibition(fresh: Material, under: Under): Concern[] {
  const by = inhibitorsAmong(fresh, under.leaves);
  return by.length === 0 ? [] : [{ kind: 'inhibition', fresh, under, by, damp: by.every(isMoisture) }];
}
