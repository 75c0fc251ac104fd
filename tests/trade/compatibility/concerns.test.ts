import { describe, expect, it } from 'vitest';
import { concernsOf } from '../../../src/trade/compatibility/concerns.ts';
import { surfaceOf } from '../../../src/trade/compatibility/surface.ts';
import type { Material } from '../../../src/trade/material.ts';
import { ab } from '../example.ts';

const of = (id: string, more: Partial<Material>) => ab(1, 1, { id, name: id, ...more });
const PLATINUM = of('platinum', {
  family: 'silicone-platinum',
  inhibitedBy: ['sulfur', 'amine', 'tin', 'latex', 'uncured acrylate'],
});
const TIN = of('tin', { family: 'silicone-tin', leaves: ['tin'], standsCelsius: 200 });
const RUBBER = of('rubber', { inhibitedBy: ['moisture'], leaves: ['amines'], standsCelsius: 80 });
const PASTE = of('paste', { inhibitedBy: ['moisture'], peakCelsius: 60 });
const HOT = of('hot', { peakCelsius: 80.5 });
const SELF = of('self', { peakCelsius: 65, standsCelsius: 60 });
const WARM = of('warm', { peakCelsius: 80 });
const POLYESTER = of('polyester', { family: 'polyester', hazards: ['styrene'], peakCelsius: 65 });
const PLASTER = of('plaster', { family: 'gypsum', leaves: ['moisture'] });

const kinds = (concerns: ReturnType<typeof concernsOf>) => concerns.map(({ kind }) => kind);
const onSurface = (fresh: Material, typed: string | null) =>
  concernsOf([{ on: 'surface', fresh, surface: typed === null ? null : surfaceOf(typed) }]);
const on = (how: 'coat' | 'mould', fresh: Material, under: Material) => concernsOf([{ on: how, fresh, under }]);

// All of it is common practice of the trade, no source.
describe('on the model', () => {
  it.each<[string, Material, string | null, string[]]>([
    ['sulphur under platinum silicone', PLATINUM, 'sulphur clay', ['inhibition']],
    ['none of it', PLATINUM, 'sulphur-free clay', []],
    ['latex under platinum silicone', PLATINUM, 'latex', ['inhibition']],
    ['fresh epoxy under platinum silicone', PLATINUM, 'epoxy', ['inhibition']],
    ['a resin print under platinum silicone', PLATINUM, '3D print', ['inhibition']],
    ['a filament print', PLATINUM, 'filament print', []],
    ['tin silicone minds none of it', TIN, '3D print', []],
    ['tin under platinum silicone, which bonds to it besides', PLATINUM, 'condensation silicone', ['inhibition', 'release']],
    ['silicone on plaster: only its pores', PLATINUM, 'plaster', ['release']],
    ['silicone on sealed wood', PLATINUM, 'wood, shellac', []],
    ['silicone on glass', PLATINUM, 'glass', ['release']],
    ['silicone on wax', PLATINUM, 'wax', []],
    ['urethane on plaster: damp, pores, bond', RUBBER, 'plaster', ['inhibition', 'release']],
    ['urethane on sealed wood', RUBBER, 'wood, shellac', ['release']],
    ['urethane on wood that is sealed and released', RUBBER, 'wood, shellac, waxed', []],
    ['urethane on silicone', RUBBER, 'silicone', []],
    ['styrene on polystyrene, hot besides only for wax', POLYESTER, 'polystyrene, sealed, waxed', ['dissolves']],
    ['epoxy on polystyrene', of('e', { family: 'epoxy' }), 'polystyrene, sealed, waxed', []],
    ['hot on wax', PASTE, 'wax, released', ['heat']],
    ['just not too hot on wax', of('cool', { peakCelsius: 50 }), 'wax, released', []],
    ['hot on a filament print', PASTE, 'filament print, released', ['heat']],
    ['hot on bronze', PASTE, 'bronze, released', []],
    ['latex gloves under platinum silicone', PLATINUM, 'latex gloves', ['inhibition']],
    ['other gloves', PLATINUM, 'vinyl gloves', []],
    ['gloves need no release', RUBBER, 'nitrile gloves', []],
    ['nobody knows', RUBBER, 'sugar paste', ['test-patch']],
    ['nobody said, and it minds something', PLATINUM, null, ['test-patch']],
    ['nobody said, and it minds damp alone', RUBBER, null, []],
  ])('%s', (_, fresh, typed, wanted) => expect(kinds(onSurface(fresh, typed))).toEqual(wanted));

  it('says what to do about the pores and the bond', () => {
    expect(onSurface(PLATINUM, 'plaster')).toMatchObject([{ seal: true, release: false }]);
    expect(onSurface(RUBBER, 'plaster')).toMatchObject([{ damp: true }, { seal: true, release: true }]);
    expect(onSurface(RUBBER, 'steel')).toMatchObject([{ seal: false, release: true }]);
  });

  it('names the substance in the word of the entry', () =>
    expect(onSurface(PLATINUM, 'sulphur clay')).toMatchObject([{ by: ['sulfur'], damp: false }]));

  it('goes by the material’s own list of releases', () => {
    const lets = { ...RUBBER, inhibitedBy: [], release: { needed: [], notNeeded: ['epoxy'] } } as const;
    expect(kinds(onSurface(lets, 'epoxy'))).toEqual([]);
    expect(kinds(onSurface({ ...lets, release: { needed: ['silicone-tin'], notNeeded: [] } }, 'silicone'))).toEqual(['release']);
  });
});

describe('on another material', () => {
  it.each<[string, 'coat' | 'mould', Material, Material, string[]]>([
    ['a coat on a coat of its own', 'coat', RUBBER, RUBBER, []],
    ['a coat on a coat of its own, which gets hot', 'coat', SELF, SELF, []],
    ['a coat that does not hold, and does not cure', 'coat', PLATINUM, RUBBER, ['no-bond', 'inhibition']],
    ['platinum on tin silicone', 'coat', PLATINUM, TIN, ['inhibition']],
    ['tin on platinum silicone', 'coat', TIN, PLATINUM, []],
    ['a shell that bonds', 'mould', PASTE, RUBBER, ['release']],
    ['a shell that does not', 'mould', PASTE, TIN, []],
    ['a casting of the mould’s own rubber', 'mould', RUBBER, RUBBER, ['release']],
    ['a casting that is too hot', 'mould', HOT, RUBBER, ['heat', 'release']],
    ['a casting that is just not', 'mould', WARM, RUBBER, ['release']],
    ['a hot casting in silicone', 'mould', HOT, TIN, []],
    ['urethane in plaster', 'mould', RUBBER, PLASTER, ['inhibition', 'release']],
    ['silicone in plaster: its pores', 'mould', TIN, PLASTER, ['release']],
    ['plaster in plaster', 'mould', PLASTER, PLASTER, ['release']],
    ['plaster in silicone', 'mould', PLASTER, TIN, []],
    ['plaster in urethane', 'mould', PLASTER, RUBBER, ['release']],
  ])('%s', (_, how, fresh, under, wanted) => expect(kinds(on(how, fresh, under))).toEqual(wanted));

  it('says of plaster that it soaks up, of anything but plaster', () => {
    expect(on('mould', TIN, PLASTER)).toMatchObject([{ seal: true, release: false }]);
    expect(on('mould', PLASTER, PLASTER)).toMatchObject([{ seal: false, release: true }]);
  });

  it('of several contacts the gravest comes first', () =>
    expect(
      kinds(
        concernsOf([
          { on: 'surface', fresh: PLATINUM, surface: null },
          { on: 'mould', fresh: HOT, under: RUBBER },
          { on: 'coat', fresh: PLATINUM, under: RUBBER },
        ]),
      ),
    ).toEqual(['no-bond', 'inhibition', 'heat', 'release', 'test-patch']));
});
